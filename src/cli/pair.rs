//! `check --pair`: baseline, chain and direct dimensions compared for two faces.

use std::fmt::Write;

use super::job::Job;
use crate::chain::{Chain, Schemes, schemes};
use crate::model::Part;
use crate::unit::{Length, Unit, show};

/// The schemes of each pair asked.
///
/// # Errors
/// One sentence: a pair that cannot be read, or a face that is not there.
pub(super) fn compare(job: &Job, asked: &[String]) -> Result<Vec<Schemes>, String> {
    let (Some(part), Some(located)) = (job.part(), job.located.as_ref()) else { return Ok(Vec::new()) };
    asked.iter().map(|pair| one(part, &located.chain, pair)).collect()
}

fn one(part: &Part, chain: &Chain, pair: &str) -> Result<Schemes, String> {
    let (from, to) = pair
        .split_once(" to ")
        .ok_or_else(|| format!("--pair \"{pair}\": write two faces, as in \"3.750 to 6.000\""))?;
    let face = |text: &str| {
        chain.face_called(part, text).ok_or_else(|| {
            format!(
                "--pair \"{pair}\": there is no face at \"{}\"; write a length, datum, far, or NAME start or end",
                text.trim()
            )
        })
    };
    let (from, to) = (face(from)?, face(to)?);
    if from == to {
        return Err(format!("--pair \"{pair}\": both are the same face"));
    }
    schemes(chain, from, to, usual(part))
        .ok_or_else(|| format!("--pair \"{pair}\": no dimension locates one of the faces"))
}

/// The tolerance of a length that states none: the general one; else what the overall has.
fn usual(part: &Part) -> Length {
    let general = part.general.lengths.map(|(upper, lower)| (upper - lower).half());
    let places = show::usual_decimals(part.units);
    let by_places = part.general.by_places.get(&places).copied();
    let overall = part.overall.as_ref().and_then(|o| o.limits).map(|l| l.band().half());
    by_places.or(general).or(overall).unwrap_or_default()
}

/// For people.
pub(super) fn text(chain: &Chain, unit: Unit, list: &[Schemes]) -> String {
    let decimals = show::usual_decimals(unit);
    let show = |l: Length| show::exact(l, unit, decimals, decimals + 2);
    let mut out = String::new();
    for s in list {
        let faces = &chain.graph.faces;
        let _ = writeln!(out, "{} to {}: {}", faces[s.from].name, faces[s.to].name, show(s.nominal));
        if let Some(now) = s.as_dimensioned {
            let _ = writeln!(out, "  as dimensioned              ±{}", show(now));
        }
        let _ = writeln!(out, "  both from the datum face    ±{}", show(s.baseline));
        let _ = writeln!(
            out,
            "  in a chain of {:<2} length{}    ±{}",
            s.chain.0,
            if s.chain.0 == 1 { " " } else { "s" },
            show(s.chain.1)
        );
        let _ = writeln!(out, "  a dimension of its own      ±{}", show(s.direct));
        if let Some(stated) = s.stated {
            let _ = writeln!(out, "  the drawing asks            {} to {}", show(stated.min), show(stated.max));
        }
        out.push('\n');
    }
    out
}
