//! The cover: is it my part, my bar, my end?

use super::{Sources, before, legend, outline, title};
use crate::figures::rest_words;
use crate::finding::{Finding, Severity};
use crate::model::part::StockShape;
use crate::model::plan::Verb;
use crate::model::shop::PictureKind;
use crate::model::{End, Kind, Text};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw::{self, Reading};
use crate::sheet::view::{Block, Head, LogoBox, Mm, Rich};
use crate::sheet::{blocks, html, words};
use crate::unit::Station;
use crate::{tell, told};

/// The cover, and all that is to be read before the first chip, over as many pages as it takes.
pub(super) fn section(s: &Sources) -> Section {
    let mut blocks = vec![top(s)];
    let body = outline::finished(s);
    if !body.stretches.is_empty() {
        let readings = readings(s);
        let alt = words::part_alt(&s.name(), body.stretches.len(), readings.iter().map(|r| r.text.as_str()));
        let flagged = s.flagged();
        blocks.push(blocks::picture(draw::part_flagged(&body, &readings, words::DATUM_END.say(), alt, &flagged)));
        blocks.extend(draw::details(&body, &readings, words::details_alt).map(blocks::picture));
        if !flagged.is_empty() {
            blocks.push(blocks::text(words::FLAGGED.say().into()));
        }
    }
    blocks.push(blocks::legend(legend::rows(s)));
    blocks.extend(readings_of(s));
    let setups = s.plan.setups.iter().map(|setup| {
        (setup.number.to_string(), Rich::from(title::sentence(s, setup)), format!("setup-{}", setup.number))
    });
    blocks.push(blocks::setups(words::SETUPS.say(), setups.collect()));
    blocks.extend(super::chart::contradiction(s));
    let planned: Vec<Rich> = of_the_plan(s).collect();
    let nothing = s.findings.is_empty() && planned.is_empty();
    blocks.push(if nothing { blocks::text(words::NO_FINDINGS.say().into()) } else { findings(s, planned) });
    Section {
        id: "cover".to_owned(),
        bookmark: words::cover(&s.name()),
        head: Head::None,
        again: blocks::title_head(words::BEFORE.say(), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items: blocks.into_iter().map(Item::Block).chain(before::items(s)).collect(),
        joins: false,
        scene: None,
    }
}

pub(super) fn top(s: &Sources) -> Block {
    let (mut lines, facts) = lines_and_facts(s);
    lines.extend(of_the_bar(s));
    let company = s.shop.and_then(|shop| shop.company.clone()).map(|c| words::name(&c)).unwrap_or_default();
    blocks::cover(&company, logo(s, &company), &s.name(), lines, facts)
}

/// Drawing, datum and treatment in sentences; material, bar and lathe in pairs.
pub(super) fn lines_and_facts(s: &Sources) -> (Vec<Rich>, Vec<(String, String)>) {
    let text = |t: &Option<Text>| t.as_ref().map(|t| words::name(&t.text)).unwrap_or_default();
    let mut lines =
        vec![Rich::from(words::drawing_sentence(&text(&s.part.drawing), &text(&s.part.revision), s.unit()))];
    if s.part.datum.is_some() {
        let letter = s.part.sections().next().map_or("", |f| f.letter.as_str());
        lines.push(words::datum_sentence(&text(&s.part.datum), letter));
    }
    if let Some(face) = &s.part.datum_face
        && let Some((from, to)) = s.chain.span(face.feature)
    {
        let at = if face.side == crate::model::FaceSide::Start { from } else { to };
        let side =
            if face.side == crate::model::FaceSide::Start { told!("start", "Anfang") } else { told!("end", "Ende") };
        lines.push(Rich::from(words::datum_moved(s.letter(face.feature), side, &s.length(at.0))));
    }
    if let Some(turn) = &s.part.rotation {
        lines.push(Rich::from(tell!("Turns {} in service.", "Dreht im Betrieb {}.", words::name(&turn.text))));
    }
    if let Some(treatment) = &s.part.heat_treatment {
        lines.push(Rich::from(tell!("Heat treatment: {}.", "Wärmebehandlung: {}.", words::name(&treatment.text))));
    }
    if let Some(coating) = &s.part.coating {
        let said =
            words::coating(&s.length(coating.nominal), s.part.sizes_after_coating, &s.length(coating.nominal.times(2)));
        lines.push(Rich::from(said));
    }
    let done: Vec<String> = s.plan.done.iter().map(|(number, _)| number.to_string()).collect();
    if !done.is_empty() {
        lines.push(Rich::new().strong(words::done_sentence(&done)));
    }
    let mut facts = Vec::new();
    let mut fact = |key: &str, value: String| {
        if !value.is_empty() {
            facts.push((key.to_owned(), value));
        }
    };
    fact(words::MATERIAL.say(), text(&s.part.material));
    if let Some(stock) = &s.part.stock {
        let size = s.length(stock.size.nominal);
        let weighs = s.figures.bar.as_ref().map(|b| format!(", {}", b.mass_text(s.unit()))).unwrap_or_default();
        fact(
            words::BAR.say(),
            match stock.shape {
                StockShape::Round => format!("Ø {size}"),
                StockShape::Hexagon => tell!("hexagon {size}", "Sechskant {size}"),
                StockShape::Square => tell!("square {size}", "Vierkant {size}"),
                StockShape::Tube { bore } => tell!("tube Ø {size}/{}", "Rohr Ø {size}/{}", s.length(bore)),
            } + &weighs,
        );
        fact(words::SAW_TO.say(), s.length(stock.length.nominal));
    }
    if let Some(saw) = &s.figures.saw_to {
        fact(words::SAW_TO.say(), words::or_longer(&saw.length.text(s.unit())));
    }
    if let Some(left) = &s.figures.remains {
        fact(words::STAYS_IN_CHUCK.say(), words::good_for(&left.length.text(s.unit()), left.more));
    }
    fact(words::FACE_OFF.say(), face_off(s));
    fact(words::LATHE.say(), s.shop.and_then(|shop| shop.name.clone()).map(|n| words::name(&n)).unwrap_or_default());
    (lines, facts)
}

/// What the saw length is the sum of.
fn of_the_bar(s: &Sources) -> Option<Rich> {
    let stated = s.figures.bar.as_ref().filter(|b| !b.wants.is_empty()).map(|b| (b.least, &b.wants));
    let (least, terms) = stated.or_else(|| s.figures.saw_to.as_ref().map(|saw| (saw.length, &saw.sum)))?;
    let terms: Vec<String> = terms.iter().map(|(_, l)| l.text(s.unit())).collect();
    Some(Rich::from(words::saw_length(&least.text(s.unit()), &terms, s.part.wishes.part_off)))
}

/// The shop's logo, as large as its room allows.
fn logo(s: &Sources, company: &str) -> Option<LogoBox> {
    let logo = s.shop?.logo_file.as_ref()?.as_ref().ok()?;
    let (most_wide, most_high) = blocks::LOGO_ROOM;
    let width = (most_high * logo.aspect).min(most_wide);
    let (kind, mime) = match logo.kind {
        PictureKind::Png => ("png", "image/png"),
        PictureKind::Svg => ("svg", "image/svg+xml"),
    };
    Some(LogoBox {
        kind,
        width: Mm(width),
        height: Mm(width / logo.aspect),
        alt: words::logo_alt(company),
        data: format!("data:{mime};base64,{}", html::base64(&logo.bytes)),
        bytes: logo.bytes.clone(),
    })
}

/// What is faced off each end: what the sawn bar has over, or what parting off leaves.
fn face_off(s: &Sources) -> String {
    let Some(first) = s.plan.setups.first() else { return String::new() };
    let (Some(start), Some(end)) = (first.before.first(), first.before.last()) else { return String::new() };
    let parted = s.plan.operations().find(|(_, o)| o.verb == Verb::PartOff).map(|(_, o)| (o.end, o.to));
    let left_by_parting = |end: End, face: Station| match parted {
        Some((Some(behind), Some(at))) if behind == end => Some((at - face).abs()),
        _ => None,
    };
    let front = left_by_parting(End::Datum, Station::DATUM).unwrap_or(Station::DATUM - start.from);
    let far = Station(s.overall());
    let back = left_by_parting(End::Far, far).unwrap_or(end.to - far);
    match (front.is_positive(), back.is_positive()) {
        (true, true) if front == back => words::each_end(&s.length(front)),
        (true, true) => words::both_ends(&s.length(front), &s.length(back)),
        _ => String::new(),
    }
}

/// Every face, and the centre of what lies on the sections, from the datum end.
pub(super) fn readings(s: &Sources) -> Vec<Reading> {
    let mut places: Vec<Station> = vec![Station::DATUM];
    for f in &s.part.features {
        match &f.kind {
            Kind::Groove { .. } | Kind::ParallelKeyseat { .. } => {
                places.extend(s.chain.span(f.id).into_iter().flat_map(|(a, b)| [a, b]));
            }
            Kind::Woodruff { .. } | Kind::CrossHole { .. } => places.extend(s.chain.center(f.id)),
            kind if kind.is_section() => places.extend(s.chain.span(f.id).into_iter().flat_map(|(a, b)| [a, b])),
            _ => {}
        }
    }
    places.sort_unstable();
    places.dedup();
    let text = |p: Station| if p == Station::DATUM { "0".to_owned() } else { s.length(p.0) };
    places.into_iter().map(|p| Reading { at: outline::mm(p), text: text(p) }).collect()
}

/// What was measured of begun work comes to.
fn readings_of(s: &Sources) -> Option<Block> {
    let says = rest_words(s.plan.rest.as_ref().filter(|_| !s.part.measured.is_empty())?, s.unit());
    let lines = says.iter().map(|t| Rich::from(words::sentence_end(&words::capital(&words::from_file(t)))));
    Some(blocks::boxed(words::WHAT_WAS_MEASURED.say(), lines.collect()))
}

/// What the plan and its chart have to say beside the findings.
pub(super) fn of_the_plan<'a>(s: &'a Sources) -> impl Iterator<Item = Rich> + use<'a> {
    let remarks = s.plan.remarks.iter().map(|r| Rich::from(words::remark(&words::from_file(r))));
    let gave = s.plan.given_way.iter();
    let gave =
        gave.map(|w| Rich::from(words::gave_way(w.rule, &words::from_file(&w.reason), &words::source(w.source))));
    remarks.chain(gave).chain(super::chart::warnings(s))
}

fn findings(s: &Sources, planned: Vec<Rich>) -> Block {
    let count = |severity| s.open(severity).count();
    let accepted: Vec<&Finding> = s.findings.iter().filter(|f| f.accepted.is_some()).collect();
    let heading =
        words::findings(count(Severity::Error), count(Severity::Warning), count(Severity::Note), accepted.len());
    let mut paragraphs = Vec::new();
    // The same advice is given once.
    let mut advised: Vec<&str> = Vec::new();
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        for f in s.open(severity) {
            let word = if severity == Severity::Note { String::new() } else { words::severity(severity) };
            let mut said = words::sentence_end(&words::from_file(&f.message));
            if let Some(help) = f.help.first().filter(|h| !advised.contains(&h.as_str())) {
                said = format!("{said} {}", words::sentence_end(&words::from_file(help)));
                advised.push(help);
            }
            let letters = words::letters(&f.features);
            paragraphs.push(Rich::new().strong(word).strong(letters).plain(said));
        }
    }
    paragraphs.extend(planned);
    paragraphs.extend(accepted.into_iter().map(|f| {
        let reason = words::from_file(f.accepted.as_deref().unwrap_or_default());
        words::accepted(&words::sentence_end(&words::from_file(&f.message)), &reason)
    }));
    blocks::boxed(&heading, paragraphs)
}
