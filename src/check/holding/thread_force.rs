//! The force of a thread's last cut, straight in: both flanks and the root at once.

use crate::model::feature::{Thread, ThreadForm};

/// Cuts that a thread is taken to be cut in: with equal chip areas the last goes a sixteenth of the depth deeper (d − d √(7/8)).
const LAST_SHARE: f64 = 16.0;

/// Least infeed of a last cut, mm: less rubs (insert makers' infeed tables ask for as much).
const LEAST_INFEED: f64 = 0.05;

/// What a thread's last cut takes out, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct LastCut {
    /// Straight infeed.
    pub(super) infeed: f64,
    /// Section of the chip, mm²: infeed times the width of the groove at its mouth.
    pub(super) area: f64,
    /// Length of the edge that cuts: root and both flanks.
    edge: f64,
}

impl LastCut {
    /// Of a thread, no deeper than a finishing cut of this depth.
    pub(super) fn of(thread: &Thread, finish: f64) -> Self {
        let (depth, pitch) = (thread.depth.mm(), thread.pitch.mm());
        let (half_angle, crest) = outline(thread.form);
        let infeed = (depth / LAST_SHARE).max(LEAST_INFEED).min(finish.max(LEAST_INFEED)).min(depth);
        let mouth = pitch * (1.0 - crest);
        let slope = half_angle.to_radians();
        let root = (mouth - 2.0 * depth * slope.tan()).max(0.0);
        Self { infeed, area: infeed * mouth, edge: root + 2.0 * depth / slope.cos() }
    }

    /// Mean thickness of the chip, mm, which Kienzle's law asks for.
    pub(super) fn thickness(&self) -> f64 {
        self.area / self.edge
    }
}

/// Half of the thread's angle in degrees (a buttress thread's mean), and the flat of its crest as a share of the pitch: the standards' basic forms.
const fn outline(form: ThreadForm) -> (f64, f64) {
    match form {
        ThreadForm::V60 => (30.0, 0.125),
        ThreadForm::V55 => (27.5, 1.0 / 6.0),
        ThreadForm::Acme => (14.5, 0.3707),
        ThreadForm::Trapezoidal => (15.0, 0.366),
        ThreadForm::Square => (0.0, 0.5),
        ThreadForm::Buttress => (26.0, 0.163),
    }
}

#[cfg(test)]
mod tests {
    use super::outline;
    use crate::model::feature::ThreadForm;

    /// ASME B1.5: the basic Acme form is P/2 deep with flats of .3707 P at crest and root. ISO 68-1: 5/8 H deep, P/8 and P/4. Both close.
    #[test]
    fn outlines_close_over_one_pitch() {
        for (form, depth, root) in [
            (ThreadForm::Acme, 0.5, 0.3707),
            (ThreadForm::V60, 0.541_266, 0.25),
            (ThreadForm::Trapezoidal, 0.5, 0.366),
            (ThreadForm::Square, 0.5, 0.5),
        ] {
            let (half, crest) = outline(form);
            let whole: f64 = crest + root + 2.0 * depth * f64::to_radians(half).tan();
            assert!((whole - 1.0).abs() < 2e-4, "{form:?}: {whole}");
        }
    }
}
