//! The short sheet, for a part that needs no page a setup: the same numbers and blocks one below the other, on as few pages as
//! they take at the full size of type. Left out are the list of letters, the pictures of the setups, the lists to lay out and the
//! page of reasons; every error, warning, caution and STOP stays, and every size to inspect.

use super::{Sources, cover, inspection, outline, setup, steps};
use crate::figures::defer;
use crate::finding::Severity;
use crate::model::plan::{DatumEnd, Setup};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw;
use crate::sheet::view::{Block, Rich};
use crate::sheet::{blocks, words};

/// All of it.
pub(super) fn section(s: &Sources) -> Section {
    let mut items: Vec<Item> = vec![Item::Block(cover::top(s))];
    let body = outline::finished(s);
    if !body.stretches.is_empty() {
        let readings = cover::readings(s);
        let alt = words::part_alt(&s.name(), body.stretches.len(), readings.iter().map(|r| r.text.as_str()));
        let picture = draw::part_flagged(&body, &readings, words::DATUM_END.say(), alt, &s.flagged());
        items.push(Item::Block(blocks::picture(picture)));
    }
    items.extend(findings(s).map(Item::Block));
    let cautions = s.figures.cautions.iter().map(|c| Rich::from(words::from_file(c))).chain([defer().into()]).collect();
    items.push(Item::Block(blocks::list(words::CAUTIONS.say(), cautions)));
    for (mounted, figures) in s.mounted() {
        items.push(Item::Block(blocks::heading(&heading(mounted))));
        items.extend(setup::holding_lines(s, mounted, figures).into_iter().map(|l| Item::Block(blocks::text(l))));
        items.extend(setup::correction(s, figures).map(Item::Block));
        items.extend(setup::zeros(s, mounted, figures, true).map(Item::Block));
        items.extend(steps::steps(s, mounted, figures));
    }
    items.extend(marks(s).map(Item::Block));
    items.extend(assumed(s).map(Item::Block));
    items.push(Item::Block(blocks::heading(words::INSPECTION.say())));
    items.extend(inspection::section(s).items);
    Section {
        id: "sheet".to_owned(),
        bookmark: words::cover(&s.name()),
        head: crate::sheet::view::Head::None,
        again: blocks::title_head(&words::continued(&s.name()), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        scene: None,
    }
}

fn heading(setup: &Setup) -> String {
    let place = match setup.datum_end {
        DatumEnd::Tailstock => words::DATUM_AT_TAILSTOCK.say(),
        DatumEnd::Headstock => words::DATUM_AT_HEADSTOCK.say(),
        DatumEnd::Left => "",
    };
    words::short_setup(setup.number, &words::held(setup.by, setup.holding), place)
}

/// What is open, without the advice: that is what the full sheet and `check` are for.
fn findings(s: &Sources) -> Option<Block> {
    let mut paragraphs = Vec::new();
    for severity in [Severity::Error, Severity::Warning] {
        paragraphs.extend(s.open(severity).map(|f| {
            Rich::new().strong(words::severity(severity)).plain(words::sentence_end(&words::from_file(&f.message)))
        }));
    }
    paragraphs.extend(cover::of_the_plan(s));
    let accepted = s.findings.iter().filter(|f| f.accepted.is_some());
    paragraphs.extend(accepted.map(|f| {
        let reason = words::from_file(f.accepted.as_deref().unwrap_or_default());
        words::accepted(&words::sentence_end(&words::from_file(&f.message)), &reason)
    }));
    let count = |severity| s.open(severity).count();
    let accepted = s.findings.iter().filter(|f| f.accepted.is_some()).count();
    let heading = words::findings(count(Severity::Error), count(Severity::Warning), count(Severity::Note), accepted);
    (!paragraphs.is_empty()).then(|| blocks::boxed(&heading, paragraphs))
}

/// The lines to scribe, in sentences.
fn marks(s: &Sources) -> Option<Block> {
    let lists = s.figures.marks.lists.iter().map(|list| {
        let lines: Vec<String> = list
            .marks
            .iter()
            .map(|m| {
                words::short_mark(
                    &m.label,
                    &m.height_gauge.text(s.unit()),
                    &words::from_file(&m.means),
                    words::leave(m.leave),
                )
            })
            .collect();
        words::short_marks(&list.name, &words::from_file(&list.standing_on), &lines)
    });
    let lists: Vec<Rich> = lists.collect();
    (!lists.is_empty()).then(|| blocks::list(words::MARKS.say(), lists))
}

/// What was assumed, without the sources.
fn assumed(s: &Sources) -> Option<Block> {
    let said = s.figures.assumed.iter().map(|a| {
        let value = words::from_file(&a.value);
        Rich::new().strong(words::from_file(&a.what)).plain(format!(" {value}. "))
    });
    let text = said.fold(Rich::new(), Rich::and);
    (!s.figures.assumed.is_empty()).then(|| blocks::boxed(words::ASSUMED.say(), vec![text]))
}
