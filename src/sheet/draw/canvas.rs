//! Lines, areas and words in millimetres of paper, written as SVG.

use std::fmt::Write as _;

use crate::sheet::measure;

/// Widths of lines in millimetres, one to two to four (ISO 128-2: thin, thick; twice that for what is cut here).
pub mod weight {
    /// Center lines, leaders, thread roots, hatching.
    pub const THIN: f64 = 0.25;
    /// Outlines.
    pub const THICK: f64 = 0.5;
    /// What is cut in this mounting.
    pub const CUT: f64 = 1.0;
}

/// Body text of pictures: 12 pt in millimetres.
pub const TEXT: f64 = 12.0 * measure::POINT;

/// What a place that no word may cover is called among the words.
pub const CLEAR: &str = "(circle)";

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Long dash, short dash: a center line.
    Center,
    /// Long dash, two short dashes: metal that goes.
    Gone,
    /// Short dashes: hidden.
    Hidden,
}

impl Dash {
    const fn pattern(self) -> &'static str {
        match self {
            Self::Solid => "",
            Self::Center => " stroke-dasharray=\"6 1.2 1 1.2\"",
            Self::Gone => " stroke-dasharray=\"5 1.1 .9 1.1 .9 1.1\"",
            Self::Hidden => " stroke-dasharray=\"1.8 1.2\"",
        }
    }
}

/// Which end or middle of a text stands at its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// A word on the picture.
#[derive(Debug, Clone, Copy)]
pub struct Label<'a> {
    /// The word.
    pub text: &'a str,
    /// Height of its type in millimetres.
    pub size: f64,
    /// Bold.
    pub bold: bool,
    /// What stands at the point.
    pub anchor: Anchor,
    /// White on black.
    pub white: bool,
    /// Turned a quarter to the left, read from the right.
    pub turned: bool,
}

impl<'a> Label<'a> {
    /// 12 pt, bold, centred.
    pub const fn bold(text: &'a str) -> Self {
        Self { text, size: TEXT, bold: true, anchor: Anchor::Middle, white: false, turned: false }
    }

    /// 12 pt, from its point on.
    pub const fn plain(text: &'a str) -> Self {
        Self { text, size: TEXT, bold: false, anchor: Anchor::Start, white: false, turned: false }
    }

    /// With another anchor.
    #[must_use]
    pub const fn anchored(mut self, anchor: Anchor) -> Self {
        self.anchor = anchor;
        self
    }

    /// Its width in millimetres when it is not turned.
    pub fn width(&self) -> f64 {
        measure::width(self.text, self.size / measure::POINT, self.bold)
    }
}

/// The paper a text or letter covers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge, millimetres.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Area {
    /// Whether two areas share more than an edge.
    pub fn meets(&self, other: &Self) -> bool {
        const EDGE: f64 = 0.01;
        self.left + EDGE < other.right
            && other.left + EDGE < self.right
            && self.top + EDGE < other.bottom
            && other.top + EDGE < self.bottom
    }
}

/// A picture in the making.
#[derive(Debug)]
pub struct Canvas {
    width: f64,
    height: f64,
    out: String,
    words: Vec<(String, Area)>,
}

/// Two decimals, no needless zeros: short files, the same on every machine.
pub(super) fn num(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

impl Canvas {
    /// An empty picture.
    pub fn new(width: f64, height: f64) -> Self {
        Self { width, height, out: String::new(), words: Vec::new() }
    }

    /// Its width.
    pub const fn width(&self) -> f64 {
        self.width
    }

    /// Its height.
    pub const fn height(&self) -> f64 {
        self.height
    }

    /// A straight line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), weight: f64, dash: Dash) {
        let _ = write!(
            self.out,
            "<path d=\"M{} {}L{} {}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"{}/>",
            num(from.0),
            num(from.1),
            num(to.0),
            num(to.1),
            num(weight),
            dash.pattern()
        );
    }

    /// A line through several points.
    pub fn path(&mut self, points: &[(f64, f64)], weight: f64, dash: Dash) {
        let d = path_data(points);
        let _ = write!(
            self.out,
            "<path d=\"{d}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\" stroke-linejoin=\"round\"{}/>",
            num(weight),
            dash.pattern()
        );
    }

    /// A filled and outlined area. `fill` is a colour or `url(#hatch)`; no outline for a weight of zero.
    pub fn area(&mut self, points: &[(f64, f64)], fill: &str, weight: f64) {
        let d = path_data(points);
        let _ = write!(self.out, "<path d=\"{d}Z\" fill=\"{fill}\"");
        if weight > 0.0 {
            let _ = write!(self.out, " stroke=\"#000\" stroke-width=\"{}\" stroke-linejoin=\"round\"", num(weight));
        }
        self.out.push_str("/>");
    }

    /// A rectangle, white inside unless `fill` says otherwise.
    pub fn rectangle(&mut self, left: f64, top: f64, right: f64, bottom: f64, fill: &str, weight: f64) {
        self.area(&[(left, top), (right, top), (right, bottom), (left, bottom)], fill, weight);
    }

    /// A circle.
    pub fn circle(&mut self, center: (f64, f64), radius: f64, fill: &str, weight: f64) {
        let _ = write!(
            self.out,
            "<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"{fill}\" stroke=\"#000\" stroke-width=\"{}\"/>",
            num(center.0),
            num(center.1),
            num(radius),
            num(weight)
        );
    }

    /// SVG path commands of a curve, not filled.
    pub fn curve(&mut self, commands: &str, weight: f64) {
        let _ =
            write!(self.out, "<path d=\"{commands}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"/>", num(weight));
    }

    /// SVG path commands of a closed curve.
    pub fn filled_curve(&mut self, commands: &str, fill: &str, weight: f64) {
        let _ = write!(
            self.out,
            "<path d=\"{commands}\" fill=\"#fff\"/><path d=\"{commands}\" fill=\"{fill}\" stroke=\"#000\" stroke-width=\"{}\"/>",
            num(weight)
        );
    }

    /// A word with its baseline at `at`.
    pub fn text(&mut self, at: (f64, f64), label: Label) {
        let anchor = match label.anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let turn = if label.turned {
            format!(" transform=\"rotate(-90 {} {})\"", num(at.0), num(at.1))
        } else {
            String::new()
        };
        let _ = write!(
            self.out,
            "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{anchor}{}{turn}>{}</text>",
            num(at.0),
            num(at.1),
            num(label.size),
            if label.bold { " font-weight=\"700\"" } else { "" },
            if label.white { " fill=\"#fff\"" } else { "" },
            escaped(label.text)
        );
        self.words.push((label.text.to_owned(), covered(at, &label)));
    }

    /// A word inside a figure of its own that covers `area`.
    pub fn text_in(&mut self, at: (f64, f64), label: Label, area: Area) {
        self.text(at, label);
        if let Some(last) = self.words.last_mut() {
            last.1 = area;
        }
    }

    /// A place that no word may cover; among the words it is called [`CLEAR`].
    pub fn keep_clear(&mut self, area: Area) {
        self.words.push((CLEAR.to_owned(), area));
    }

    /// Another picture without words, turned so that its right end looks down: its point (x, y) comes to (`across` − y, x).
    pub fn upended(&mut self, other: &Self, across: f64) {
        let _ = write!(self.out, "<g transform=\"translate({} 0) rotate(90)\">{}</g>", num(across), other.out);
    }

    /// What every text covers, in the order drawn.
    pub fn words(&self) -> &[(String, Area)] {
        &self.words
    }

    /// The SVG element, with its words set in Noto Sans.
    pub fn svg(&self, id: &str) -> String {
        let hatch = if self.out.contains("url(#hatch)") {
            format!(
                "<defs><pattern id=\"hatch-{id}\" width=\"2.4\" height=\"2.4\" patternUnits=\"userSpaceOnUse\" \
                 patternTransform=\"rotate(45)\"><path d=\"M0 0V2.4\" stroke=\"#000\" stroke-width=\".25\"/></pattern></defs>"
            )
        } else {
            String::new()
        };
        let (w, h) = (num(self.width), num(self.height));
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {w} {h}\" width=\"{w}mm\" height=\"{h}mm\" \
             font-family=\"Noto Sans\">{hatch}{}</svg>",
            self.out.replace("url(#hatch)", &format!("url(#hatch-{id})"))
        )
    }
}

fn path_data(points: &[(f64, f64)]) -> String {
    let mut d = String::new();
    for (i, (x, y)) in points.iter().enumerate() {
        let _ = write!(d, "{}{} {}", if i == 0 { 'M' } else { 'L' }, num(*x), num(*y));
    }
    d
}

/// Capitals and figures of Noto Sans rise 0.714 em above the baseline; 0.24 em holds what hangs below it.
fn covered(at: (f64, f64), label: &Label) -> Area {
    let (w, up, down) = (label.width(), 0.73 * label.size, 0.24 * label.size);
    let before = match label.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => w / 2.0,
        Anchor::End => w,
    };
    if label.turned {
        Area { left: at.0 - up, top: at.1 - (w - before), right: at.0 + down, bottom: at.1 + before }
    } else {
        Area { left: at.0 - before, top: at.1 - up, right: at.0 - before + w, bottom: at.1 + down }
    }
}
