//! `handbook material`.

use serde_json::{Value, json};

use super::answer::{Answer, number};
use super::size;
use crate::handbook::material::{self, Condition, Named, Tool};
use crate::unit::{Unit, show};

/// `material`.
#[derive(Debug, clap::Args)]
pub struct MaterialArgs {
    /// A grade, with its condition if you like; without one, the grades are listed.
    pub material: Option<String>,
    /// Bar diameter: shows the bar's own tolerance.
    #[arg(long)]
    pub bar: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &MaterialArgs) -> Result<Answer, String> {
    let Some(text) = &args.material else { return Ok(list(args)) };
    let named = find(text)?;
    let bar = args.bar.as_ref().map(|b| size::read(b, "bar", args.show, None)).transpose()?;
    let unit = bar.map(|b| b.unit).or(args.show.unit()).unwrap_or(Unit::Inch);
    let Named { material, condition } = &named;
    let title = condition.map_or_else(|| material.name.to_owned(), |c| format!("{}, {}", material.name, c.words()));
    let mut answer = Answer::new("material", unit, format!("{title} ({})", material.family), args.show);
    answer.field("name", json!(material.name));
    answer.field("also", json!(material.also));
    answer.field("family", json!(material.family));
    answer.field("condition", condition.map_or(Value::Null, |c| json!(c.words())));
    answer.field("density_kg_m3", json!(material.density));
    answer.field("modulus_gpa", json!(material.modulus));
    answer.field("expansion_per_k", json!(material.expansion * 1e-6));
    answer.field("hardness", json!(material.hardness));
    answer.field("carbon_percent", json!(material.carbon_percent));
    answer.field("cautions", Value::Array(material.cautions.iter().map(|c| json!(c.sentence())).collect()));
    answer.row("also called, or near", material.also.join(", "));
    answer.row("density", format!("{} kg/m³ ({:.3} lb/in³)", material.density, material.density / 27_679.9));
    answer.row("modulus", format!("{} GPa ({:.1} million psi)", material.modulus, material.modulus / 6.894_757));
    answer.row("expansion", format!("{} e-6 per K ({:.1} e-6 per °F)", material.expansion, material.expansion / 1.8));
    answer.row("hardness", material.hardness);
    speeds(&mut answer, &named, unit);
    if let Some(bar) = bar {
        bar_row(&mut answer, &named, bar);
    }
    for caution in &material.cautions {
        answer.note(caution.sentence());
    }
    answer.source(material.source);
    answer.source(material.expansion_source);
    Ok(answer)
}

/// A material by what was written, or a sentence with the nearest names.
pub(super) fn find(text: &str) -> Result<Named, String> {
    material::find(text).ok_or_else(|| {
        format!("the handbook does not know \"{text}\"; near it: {}", material::nearest(text, 4).join(", "))
    })
}

fn speeds(answer: &mut Answer, named: &Named, unit: Unit) {
    let word = if unit == Unit::Inch { "ft/min" } else { "m/min" };
    let mut fields = serde_json::Map::new();
    for (name, tool) in [("hss", Tool::Hss), ("carbide", Tool::Carbide)] {
        let s = named.material.speeds(tool, named.condition);
        let (rough, finish) = (s.rough.in_unit(unit).round(), s.finish.in_unit(unit).round());
        answer.row(&format!("turning speed, {name}"), format!("{rough} rough, {finish} finish {word}"));
        fields.insert(name.to_owned(), json!({"rough": rough, "finish": finish}));
        answer.source(s.source);
    }
    fields.insert("unit".to_owned(), json!(word));
    answer.field("speeds", Value::Object(fields));
}

fn bar_row(answer: &mut Answer, named: &Named, bar: size::Sized) {
    let condition = named.condition.unwrap_or(Condition::ColdDrawn);
    let tolerance = named.material.carbon().and_then(|c| material::bar_tolerance(c, condition, bar.value, bar.unit));
    if named.condition.is_none() {
        answer.note("condition not stated: taken as cold drawn, ASSUMED");
    }
    let Some((d, source)) = tolerance else {
        answer.note("no standard tolerance known here for a bar of this material, condition and size");
        return;
    };
    answer.field("bar", json!({"upper": number(d.upper, bar.unit), "lower": number(d.lower, bar.unit)}));
    let text = format!(
        "{} / {} {}",
        show::exact(d.upper, bar.unit, 0, 4),
        show::exact(d.lower, bar.unit, 3, 4),
        bar.unit.word()
    );
    answer.row("bar's own size", text);
    answer.source(source);
}

fn list(args: &MaterialArgs) -> Answer {
    let mut answer = Answer::new("material", args.show.unit().unwrap_or(Unit::Inch), "Materials", args.show);
    let mut families: Vec<(&str, Vec<&str>)> = Vec::new();
    for m in material::all() {
        match families.iter_mut().find(|(family, _)| *family == m.family) {
            Some((_, names)) => names.push(m.name),
            None => families.push((m.family, vec![m.name])),
        }
    }
    for (family, names) in &families {
        answer.row(family, names.join(", "));
    }
    answer.field("materials", Value::Array(families.iter().map(|(f, n)| json!({"family": f, "names": n})).collect()));
    answer
}
