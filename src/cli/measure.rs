//! `sheet --measure`: the form for measuring a worn sample, on paper and as YAML.

use std::path::Path;

use super::args::SheetFormat;
use super::job::{Job, Tally};
use super::plan;
use super::screen::Screen;
use crate::figures::Figures;
use crate::language::{self, Language};
use crate::model::Plan;
use crate::read::sample::{self, ReadSample, SampleForm};
use crate::read::{self, Loaded, Shops};
use crate::sheet::build::Sources;
use crate::sheet::build::sample::{sample_view, where_to_look};
use crate::sheet::view::{Paper, View};

/// What making a form came to.
pub(super) enum Form {
    /// Pages.
    Pages(Box<View>, Language),
    /// The text to fill.
    Text(String),
    /// The description cannot be read; the errors, drawn.
    No(String),
}

/// A part with its form.
struct Asked {
    job: Job,
    form: SampleForm,
}

/// Reads a description, or a form that was filled in.
fn asked(path: &Path, shops: &Shops) -> Result<Asked, String> {
    let name = path.to_string_lossy();
    let bytes = read::file(&name).map_err(|e| e.to_string())?;
    let ReadSample { form, is_form, source, faults, .. } = sample::sample(&name, &bytes);
    let Some(form) = form else {
        let said = faults.first().map(|(place, why)| format!("{name}:{}: {why}", source.line_column(place.start).0));
        return Err(said.unwrap_or_else(|| format!("{name}: it cannot be read; turnwright check {name} says why")));
    };
    let job = if is_form {
        let made = sample::from_sample(&form);
        Job::of(Loaded { part: read::part(&name, made.text.as_bytes()), shop: None })?
    } else {
        Job::of(read::load_bytes(&name, &bytes, shops))?
    };
    Ok(Asked { job, form })
}

/// Makes the form of one part.
pub(super) fn form(
    path: &Path,
    shops: &Shops,
    (format, paper): (SheetFormat, Paper),
    asked_language: Option<Language>,
    seconds: f64,
    screen: Screen,
) -> Result<Form, String> {
    let Asked { job, form } = asked(path, shops)?;
    let language = asked_language.or_else(|| job.part().and_then(|p| p.language)).unwrap_or_default();
    // A rough description may have no plan; the picture then does without.
    let planned = job.plan(seconds).and_then(Result::ok);
    let (Some(part), Some(located)) = (job.part(), job.located.as_ref()) else {
        let findings = job.findings(None);
        return Ok(Form::No(plan::why_not(&job, &findings, Tally::of(&findings), screen)));
    };
    let (no_plan, no_figures) = (Plan::default(), Figures::default());
    let sources = Sources {
        part,
        chain: &located.chain,
        plan: planned.as_ref().map_or(&no_plan, |p| &p.plan),
        figures: planned.as_ref().map_or(&no_figures, |p| &p.figures),
        findings: &[],
        shop: job.shop(),
    };
    if format == SheetFormat::Yaml {
        return Ok(Form::Text(sample::form_text(&form, &|feature| where_to_look(&sources, feature))));
    }
    let view = language::speaking(language, || sample_view(&sources, &form, paper));
    Ok(Form::Pages(Box::new(view), language))
}
