//! Parts made without a file: the sample parts by their sizes, and random ones.

use turnwright::finding::{FileId, Place};
use turnwright::model::feature::{Carried, CenterSize, EdgeAt, Ends, Extent, Finish, Hand, Thread, ThreadForm, TrueTo};
use turnwright::model::part::{GeneralTolerances, Stock, StockShape, Wishes};
use turnwright::model::{Feature, Kind, LimitsFrom, Part, PlaceRef, Size, Text};
use turnwright::unit::{Length, Limits, NumberForm, ToleranceText, Unit, read_size};

pub(crate) const NOWHERE: Place = Place { file: FileId::Part, start: 0, end: 0 };

pub(crate) fn text(text: &str) -> Text {
    Text { text: text.to_owned(), place: NOWHERE }
}

pub(crate) fn size(written: &str) -> Size {
    let read = read_size(written, Unit::Inch).unwrap_or_else(|e| panic!("{written}: {e:?}"));
    let limits = read.limits();
    let from = if limits.is_some() { LimitsFrom::Written } else { LimitsFrom::Nothing };
    Size {
        nominal: read.nominal.value,
        limits,
        from,
        tolerance: read.tolerance.clone(),
        unit: Unit::Inch,
        form: read.nominal.form,
        reference: read.reference,
        place: NOWHERE,
        text: written.to_owned(),
    }
}

/// A size with stated ends, in micrometres, as a fit code gives it.
pub(crate) fn fit(nominal_mm: i64, code: &str, lower: i64, upper: i64) -> Size {
    Size {
        nominal: Length::PER_MM.times(nominal_mm),
        limits: Some(Limits::new(
            Length::micrometres(nominal_mm * 1000 + lower),
            Length::micrometres(nominal_mm * 1000 + upper),
        )),
        from: LimitsFrom::Fit,
        tolerance: ToleranceText::Fit(code.to_owned()),
        unit: Unit::Millimetre,
        form: NumberForm::Decimal(0),
        reference: false,
        place: NOWHERE,
        text: format!("{nominal_mm} mm {code}"),
    }
}

/// A description under construction.
pub(crate) struct Builder {
    pub(crate) part: Part,
}

impl Builder {
    pub(crate) fn new(name: &str, diameter: &str, sawn: &str, overall: &str) -> Self {
        let stock = Stock { shape: StockShape::Round, size: size(diameter), length: size(sawn), place: NOWHERE };
        let part = Part {
            name: text(name),
            drawing: None,
            revision: None,
            units: Unit::Inch,
            material: None,
            stock: Some(stock),
            datum: Some(text("datum end")),
            overall: Some(size(overall)),
            general: GeneralTolerances::default(),
            lathe: None,
            features: Vec::new(),
            dims: Vec::new(),
            accept: Vec::new(),
            wishes: Wishes::default(),
            notes: None,
            heat_treatment: None,
            coating: None,
            place: NOWHERE,
            hash: String::new(),
        };
        Self { part }
    }

    pub(crate) fn add(&mut self, kind: Kind) -> &mut Feature {
        let id = self.part.features.len();
        let lettered = !matches!(kind, Kind::Chamfer { .. } | Kind::Fillet { .. } | Kind::CenterHole { .. });
        let used = self.part.features.iter().filter(|f| !f.letter.is_empty()).count();
        let letter = if lettered { char::from(b'A' + (used % 26) as u8).to_string() } else { String::new() };
        self.part.features.push(Feature {
            id,
            letter,
            name: None,
            kind,
            finish: None,
            carries: Vec::new(),
            true_to: None,
            angle_mdeg: None,
            place: NOWHERE,
            head: NOWHERE,
            value: NOWHERE,
        });
        self.part.features.last_mut().expect("just pushed")
    }

    pub(crate) fn turn(&mut self, diameter: Size, to: &str) -> &mut Feature {
        self.add(Kind::Turn { diameter, kept: false, to: until(to) })
    }

    pub(crate) fn kept(&mut self, to: &str) -> &mut Feature {
        let diameter = self.part.stock.as_ref().expect("stock").size.clone();
        self.add(Kind::Turn { diameter, kept: true, to: until(to) })
    }

    pub(crate) fn relief(&mut self, diameter: &str, to: &str) -> &mut Feature {
        self.add(Kind::Relief { diameter: size(diameter), corner: None, to: until(to) })
    }

    /// A thread by the limits of its standard, ten-thousandths of an inch: major and pitch diameter, largest and smallest.
    pub(crate) fn thread(
        &mut self,
        called: &str,
        nominal: i64,
        tpi: i64,
        major: (i64, i64),
        pd: (i64, i64),
        to: &str,
    ) -> &mut Feature {
        let pitch = Length::PER_INCH.times_ratio(1, tpi);
        let tenths = |pair: (i64, i64)| Limits::new(Length::inch_tenths(pair.1), Length::inch_tenths(pair.0));
        let thread = Thread {
            designation: called.to_owned(),
            place: NOWHERE,
            form: ThreadForm::V60,
            inch: true,
            tpi: Some((tpi, 1)),
            pitch,
            lead: pitch,
            starts: 1,
            hand: Hand::Right,
            nominal: Length::inch_tenths(nominal),
            major: tenths(major),
            pitch_diameter: tenths(pd),
            minor_max: Length::inch_tenths(pd.0) - pitch.times_ratio(6495, 10_000),
            root: Length::inch_tenths(pd.1) - pitch.times_ratio(64_952, 100_000),
            depth: pitch.times_ratio(6134, 10_000),
            standard: true,
            nearest: Vec::new(),
            full: None,
            run_out: None,
            blank: None,
            rotation: None,
        };
        self.add(Kind::Thread { thread: Box::new(thread), to: until(to) })
    }

    pub(crate) fn chamfer(&mut self, leg: &str, end: turnwright::model::End) {
        self.add(Kind::Chamfer { leg: size(leg), angle_mdeg: 45_000, at: EdgeAt::End(end) });
    }

    pub(crate) fn center_holes(&mut self, there: bool, ends: Ends) {
        let hole = CenterSize {
            text: "A 1/8".to_owned(),
            form: "A".to_owned(),
            drill: Length::PER_INCH.times_ratio(1, 8),
            mouth: Length::PER_INCH.times_ratio(5, 16),
            depth: Length::PER_INCH.times_ratio(5, 16),
        };
        self.add(Kind::CenterHole { size: there.then_some(hole), ends });
    }

    pub(crate) fn woodruff(&mut self, number: &str, at: &str) -> &mut Feature {
        self.add(Kind::Woodruff { number: number.to_owned(), at: PlaceRef::FromDatum(size(at)) })
    }

    pub(crate) fn groove(&mut self, diameter: &str, from: &str, wide: &str) -> &mut Feature {
        let from = PlaceRef::FromDatum(size(from));
        self.add(Kind::Groove { diameter: size(diameter), from, wide: size(wide), ring: None })
    }
}

pub(crate) fn until(to: &str) -> Extent {
    Extent::To(PlaceRef::FromDatum(size(to)))
}

impl Sitting for Feature {
    fn carry(&mut self, what: &str, bore: Size) -> &mut Self {
        self.carries.push(Carried {
            part: text(what),
            bore: Some(bore),
            wide: None,
            corner: None,
            land: None,
            enters: None,
            place: NOWHERE,
        });
        self
    }

    fn named(&mut self, name: &str) -> &mut Self {
        self.name = Some(text(name));
        self
    }

    fn finish_nm(&mut self, ra_nm: u32) -> &mut Self {
        self.finish = Some(Finish { text: format!("{ra_nm} nm"), ra_nm, place: NOWHERE });
        self
    }

    fn true_to(&mut self, feature: usize) -> &mut Self {
        self.true_to = Some(TrueTo { feature, within: size("0.001") });
        self
    }
}

/// Saying more of a feature.
pub(crate) trait Sitting {
    fn carry(&mut self, what: &str, bore: Size) -> &mut Self;
    fn named(&mut self, name: &str) -> &mut Self;
    fn finish_nm(&mut self, ra_nm: u32) -> &mut Self;
    fn true_to(&mut self, feature: usize) -> &mut Self;
}
