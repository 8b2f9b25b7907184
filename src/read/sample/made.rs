//! From the filled form to a description: every size as it was taken, as the unworn metal confirms the sketch, as the readings suggest,
//! or as the sketch has it; whatever no unworn metal proves is told as taken on trust.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::super::keys::Scope;
use super::super::start::scalar;
use super::sorts::{Sort, bare, behind, readings, sort};
use super::suggest::{self, Suggested, Wears};
use super::write::{flow, kept};
use super::{BOTTOM, Cell, PITCH, Plain, SLOT, STARTS, SampleEntry, SampleFeature, SampleForm, SampleRow};
use crate::finding::Place;
use crate::unit::{Length, Unit, read_number, read_size};

/// A description made from a form.
#[derive(Debug, Clone, Default)]
pub struct FromSample {
    /// The description.
    pub text: String,
    /// Lines of it (from 1) that come from a row, with the row.
    pub lines: Vec<(usize, Place)>,
    /// What is taken on trust, one sentence each.
    pub trusted: Vec<String>,
    /// Rows that have nothing to take, or a reading that is none.
    pub faults: Vec<(Option<Place>, String)>,
}

/// A size with how it came.
struct Size {
    text: String,
    nominal: Option<Length>,
    /// Behind it, as a comment.
    says: String,
    /// Why it is on trust; none where unworn metal proves it.
    trust: Option<String>,
}

/// A description from a form.
pub fn from_sample(form: &SampleForm) -> FromSample {
    let mut make =
        Make { form, unit: form.unit, out: FromSample::default(), faces: BTreeMap::new(), shafts: Vec::new() };
    make.faces();
    make.description();
    make.out
}

struct Make<'a> {
    form: &'a SampleForm,
    unit: Unit,
    out: FromSample,
    /// Places of the sketch with what was taken for them.
    faces: BTreeMap<Length, String>,
    /// Sections: where each ends, and its diameter, as far as they are plain numbers.
    shafts: Vec<(Length, Length)>,
}

fn number(text: &str, unit: Unit) -> Option<Length> {
    read_size(text, unit).ok().map(|s| s.nominal.value).or_else(|| suggest::reading(text, unit))
}

impl Make<'_> {
    /// What was taken for each place that the sketch counts from the datum end: chamfers, fillets and `dims` name them again.
    fn faces(&mut self) {
        let mut out = std::mem::take(&mut self.out);
        let mut faces = BTreeMap::new();
        let mut shafts = Vec::new();
        for f in self.form.features.iter().chain(&self.form.inside) {
            let mut ends = None;
            for key in ["to", "from", "at"] {
                let Some(row) = f.row(key).filter(|r| r.counted.is_empty()) else { continue };
                let Some(size) = self.size(row, Sort::Length, "") else { continue };
                if let Some(sketched) = number(&row.sketch, self.unit) {
                    let plain = size.nominal.map_or_else(|| size.text.clone(), |_| bare(&size.text));
                    faces.insert(sketched, plain);
                }
                ends = ends.or(size.nominal.filter(|_| key == "to"));
            }
            let main = f.entries.first().and_then(|e| if let Cell::Row(r) = &e.cell { Some(r) } else { None });
            let across = main.and_then(|r| self.size(r, sort(f, f.word()), "")).and_then(|s| s.nominal);
            if f.kind.is_some_and(|k| k.section)
                && let (Some(to), Some(across)) = (ends, across)
            {
                shafts.push((to, across));
            }
        }
        out.faults.clear();
        self.out = out;
        (self.faces, self.shafts) = (faces, shafts);
    }

    fn description(&mut self) {
        self.line("# Made from a sample form. ON TRUST marks what no unworn metal proves; the list at the end prints on the sheet.");
        self.line(&format!("part: {}", scalar(&self.form.name)));
        self.line(&format!("units: {}", self.unit.word()));
        let form = self.form;
        let below = |key: &str| matches!(key, "dims" | "plan" | "notes" | "accept");
        for e in form.head.iter().filter(|e| !below(&e.key)) {
            self.head(e);
        }
        for (list, features) in [("features", &form.features), ("inside", &form.inside)] {
            if !features.is_empty() {
                self.line(&format!("\n{list}:"));
            }
            for f in features {
                self.feature(f);
            }
        }
        for e in form.head.iter().filter(|e| below(&e.key)) {
            self.head(e);
        }
        let trusted = std::mem::take(&mut self.out.trusted);
        if !trusted.is_empty() {
            self.line("\ntaken on trust:");
            for t in &trusted {
                self.line(&format!("  - {}", flow(&Plain::Text(t.clone()))));
            }
        }
        self.out.trusted = trusted;
    }

    fn line(&mut self, text: &str) {
        self.out.text.push_str(text);
        self.out.text.push('\n');
    }

    /// A line that comes from a row.
    fn row_line(&mut self, row: &SampleRow, text: &str) {
        self.line(text);
        if let Some(place) = row.place {
            let at = self.out.text.lines().count();
            self.out.lines.push((at, place));
        }
    }

    fn head(&mut self, e: &SampleEntry) {
        match &e.cell {
            Cell::Kept(plain) => {
                let plain = self.places(&e.key, plain);
                let mut text = String::new();
                kept(&mut text, "", &e.key, &plain);
                if e.key == "tolerances" {
                    self.out.trusted.push("general tolerances: no sample shows them".to_owned());
                }
                self.line(text.trim_end());
            }
            Cell::Row(row) => {
                let sort = if e.key == "overall" { Sort::Length } else { Sort::Words };
                self.size_line("", &e.key, &e.key.clone(), row, sort);
            }
        }
    }

    fn feature(&mut self, f: &SampleFeature) {
        let called = Self::called(f);
        for (i, e) in f.entries.iter().enumerate() {
            let indent = if i == 0 { "  - " } else { "    " };
            let own_pitch = e.key == PITCH && f.word() == "knurl";
            match &e.cell {
                Cell::Row(_) if [PITCH, STARTS, SLOT, BOTTOM].contains(&e.key.as_str()) && !own_pitch => {}
                Cell::Row(row) if i == 0 => match self.special(f, row) {
                    Some(size) => self.put(indent, &e.key, &format!("{called}, {}", e.key), row, size),
                    None => self.size_line(indent, &e.key, &format!("{called}, {}", e.key), row, sort(f, &e.key)),
                },
                Cell::Row(row) => {
                    self.size_line(indent, &e.key, &format!("{called}, {}", e.key), row, sort(f, &e.key));
                }
                Cell::Kept(plain) => {
                    let plain = self.places(&e.key, plain);
                    let mut text = String::new();
                    kept(&mut text, indent, &e.key, &plain);
                    self.line(text.trim_end());
                }
            }
        }
    }

    /// How a sentence speaks of a feature: by its name, else by its kind and where it stands.
    fn called(f: &SampleFeature) -> String {
        if let Some(name) = f.text("name") {
            return name.to_owned();
        }
        for key in ["to", "at", "from"] {
            if let Some(row) = f.row(key) {
                let said = [&row.taken, &row.sketch, &row.unworn, &row.worn].into_iter().find(|t| !t.is_empty());
                return said.map_or_else(|| f.word().to_owned(), |at| format!("{} {key} {at}", f.word()));
            }
        }
        match f.text("end").or_else(|| f.text("at")).or_else(|| f.text("to")) {
            Some(at) => format!("{} at {at}", f.word()),
            None => f.word().to_owned(),
        }
    }

    /// Threads and keyseats are suggested from two rows.
    fn special(&mut self, f: &SampleFeature, row: &SampleRow) -> Option<Size> {
        if !row.taken.is_empty() {
            return None;
        }
        let (text, worn) = if row.unworn.is_empty() { (&row.worn, true) } else { (&row.unworn, false) };
        let read = suggest::reading(text, self.unit)?;
        let found = match f.word() {
            "thread" => {
                let p = f.row(PITCH)?;
                let p =
                    if p.taken.is_empty() { if p.unworn.is_empty() { &p.worn } else { &p.unworn } } else { &p.taken };
                if p.is_empty() {
                    return None;
                }
                let Some(pitch) = suggest::pitch(p, self.unit) else {
                    let place = f.row(PITCH).and_then(|r| r.place);
                    self.out.faults.push((place, format!("`{p}` is no pitch; write 0.278 over 5, 18 tpi or 1.5 mm")));
                    return None;
                };
                let nut = f.kind.is_some_and(|k| k.scope == Scope::InsideThread);
                let starts = f.row(STARTS).and_then(|r| {
                    let text = [&r.taken, &r.unworn, &r.worn].into_iter().find(|t| !t.is_empty())?;
                    text.trim().parse().ok().filter(|n| (1..=12).contains(n))
                });
                let left = row.sketch.trim_end().ends_with("LH");
                suggest::thread((read, worn), (pitch, starts), nut, left)?
            }
            "keyseat" => {
                let woodruff = row.sketch.to_ascii_lowercase().contains("woodruff");
                let slot = f.row(SLOT).and_then(|r| {
                    let text = [&r.taken, &r.unworn, &r.worn].into_iter().find(|t| !t.is_empty())?;
                    suggest::reading(text, self.unit)
                });
                suggest::keyseat(read, slot, self.shaft_under(f), woodruff, self.unit)?
            }
            _ => return None,
        };
        let same = |s: &str| s.chars().filter(|c| !c.is_whitespace()).collect::<String>().to_ascii_lowercase();
        let name = same(&found.text);
        let stem = name.split("-2").next().unwrap_or(&name).to_owned();
        if !row.sketch.is_empty()
            && (same(&row.sketch) == name || f.word() == "thread" && same(&row.sketch).starts_with(&stem))
        {
            let trust = worn.then(|| format!("read {text} where it is worn"));
            let says = format!("{}; {}", readings(row), found.why);
            return Some(Size { text: row.sketch.clone(), nominal: found.nominal, says, trust });
        }
        Some(suggested(row, found, worn))
    }

    /// Diameter of the section that a keyseat lies on.
    fn shaft_under(&self, f: &SampleFeature) -> Option<Length> {
        let at = ["at", "from"].into_iter().find_map(|k| self.size_of(f.row(k)?))?;
        self.shafts.iter().find(|(to, _)| at < *to).map(|(_, across)| *across)
    }

    fn size_of(&self, row: &SampleRow) -> Option<Length> {
        [&row.taken, &row.unworn, &row.worn, &row.sketch]
            .into_iter()
            .find(|t| !t.is_empty())
            .and_then(|t| number(t, self.unit))
    }

    fn size_line(&mut self, indent: &str, key: &str, called: &str, row: &SampleRow, sort: Sort) {
        match self.size(row, sort, called) {
            Some(size) => self.put(indent, key, called, row, size),
            None => self
                .out
                .faults
                .push((row.place, format!("{called}: the row is empty; fill in `taken as` or a reading"))),
        }
    }

    fn put(&mut self, indent: &str, key: &str, called: &str, row: &SampleRow, size: Size) {
        let mut text = format!("{indent}{key}: {}", scalar(&size.text));
        let mut says: Vec<String> = Vec::new();
        if let Some(trust) = &size.trust {
            says.push(format!("ON TRUST: {trust}"));
            let why = if row.why.is_empty() { String::new() } else { format!("; {}", row.why) };
            self.out.trusted.push(format!("{called} {}: {trust}{why}", size.text));
        }
        says.extend([size.says, row.why.clone()].into_iter().filter(|s| !s.is_empty()));
        if !says.is_empty() {
            let says = says.join("; ");
            let says: String = says.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
            let _ = write!(text, "{}# {says}", " ".repeat(34_usize.saturating_sub(text.chars().count()).max(2)));
        }
        self.row_line(row, &text);
    }

    /// The size of a row, by the first that is there: taken, confirmed sketch, suggestion, sketch.
    fn size(&mut self, row: &SampleRow, sort: Sort, called: &str) -> Option<Size> {
        let read = |text: &str| (!text.is_empty()).then(|| suggest::reading(text, self.unit));
        let (unworn, worn) = (read(&row.unworn), read(&row.worn));
        let words = matches!(sort, Sort::Words);
        for (text, found) in [(&row.unworn, unworn), (&row.worn, worn)] {
            if found == Some(None) && !words && !called.is_empty() {
                self.out
                    .faults
                    .push((row.place, format!("{called}: `{text}` is no reading; write 0.8744, 22.2 mm or 7/8")));
            }
        }
        let (unworn, worn) = (unworn.flatten(), worn.flatten());
        let with =
            |text: &str| if row.counted.is_empty() { text.to_owned() } else { format!("{text} {}", row.counted) };
        if !row.taken.is_empty() {
            let nominal = number(&row.taken, self.unit);
            let trust = match (unworn, worn, nominal) {
                (Some(u), _, Some(n))
                    if !suggest::confirms(&row.taken, u, self.unit) && (u - n).abs() > Length::micrometres(60) =>
                {
                    Some(format!("unworn metal reads {}", row.unworn))
                }
                (Some(_), ..) => None,
                (None, Some(_), _) => Some(format!("only worn metal was read, {}", row.worn)),
                (None, None, _) if words && !row.unworn.is_empty() => None,
                (None, None, _) => Some("taken without a reading".to_owned()),
            };
            let text = if row.taken.contains(" from ") { row.taken.clone() } else { with(&row.taken) };
            // What makes it trust tells the reading already.
            let says = if trust.is_some() && unworn.is_none() { String::new() } else { readings(row) };
            return Some(Size { text, nominal, says, trust });
        }
        let Some((value, is_worn)) = unworn.map(|u| (u, false)).or_else(|| worn.map(|w| (w, true))) else {
            if row.sketch.is_empty() {
                return None;
            }
            let text = with(&row.sketch);
            let trust = Some("not measured; as the sketch has it".to_owned());
            return Some(Size { text, nominal: number(&row.sketch, self.unit), says: String::new(), trust });
        };
        // A seat is no seat without its limits.
        let whole = !matches!(sort, Sort::Seat(_)) || suggest::has_limits(&row.sketch, self.unit);
        if !is_worn && whole && suggest::confirms(&row.sketch, value, self.unit) {
            let nominal = number(&row.sketch, self.unit);
            return Some(Size { text: with(&row.sketch), nominal, says: readings(row), trust: None });
        }
        let wears = |as_it_does| if is_worn { as_it_does } else { Wears::Not };
        let found = match sort {
            Sort::Seat(of) => suggest::seat(value, of, self.unit)
                .or_else(|| Some(suggest::plain(value, wears(Wears::Small), self.unit))),
            Sort::Outside => Some(suggest::plain(value, wears(Wears::Small), self.unit)),
            Sort::Hole => Some(suggest::plain(value, wears(Wears::Large), self.unit)),
            Sort::Length => Some(suggest::plain(value, Wears::Not, self.unit)),
            Sort::Words => None,
        };
        let Some(mut found) = found else {
            let trust = Some(format!("as the sketch has it; {}", readings(row)));
            return (!row.sketch.is_empty()).then(|| Size {
                text: with(&row.sketch),
                nominal: None,
                says: String::new(),
                trust,
            });
        };
        // What stands behind the number in the sketch stays: `across`, `x 45°`.
        found.text = with(&format!("{}{}", found.text, behind(&row.sketch)));
        Some(suggested(row, found, is_worn))
    }

    /// Places that name a face of the sketch, moved to where that face was taken.
    fn places(&self, key: &str, plain: &Plain) -> Plain {
        let place = matches!(key, "at" | "from" | "to" | "where");
        match plain {
            Plain::Text(text) if place => {
                let taken = read_number(text, self.unit).ok().and_then(|n| self.faces.get(&n.value));
                Plain::Text(taken.cloned().unwrap_or_else(|| text.clone()))
            }
            Plain::Text(_) => plain.clone(),
            Plain::List(list) => Plain::List(list.iter().map(|p| self.places(key, p)).collect()),
            Plain::Keys(keys) => Plain::Keys(keys.iter().map(|(k, v)| (k.clone(), self.places(k, v))).collect()),
        }
    }
}

fn suggested(row: &SampleRow, found: Suggested, worn: bool) -> Size {
    let read = if worn {
        format!("only worn metal was read, {}", row.worn)
    } else {
        format!("unworn metal reads {}", row.unworn)
    };
    let says = if worn || row.worn.is_empty() { found.why } else { format!("worn {}; {}", row.worn, found.why) };
    // A round number that unworn metal reads within a caliper's error is no guess; which class, thread or key it was is one.
    if !worn && found.reads.is_some_and(|off| off <= Length::micrometres(50)) {
        let says = format!("unworn {}; {says}", row.unworn);
        return Size { text: found.text, nominal: found.nominal, says, trust: None };
    }
    Size { text: found.text, nominal: found.nominal, says, trust: Some(format!("suggested, as {read}")) }
}
