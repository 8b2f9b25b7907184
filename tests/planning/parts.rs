//! The sample parts of the trade notes: sizes as there, thread limits as there (ASME B1.1, class 2A), k5 limits of ISO 286.

use turnwright::model::{End, Ends, Part};

use crate::build::{Builder, Sitting as _, fit, size};

/// P1, tool-post stud.
pub(crate) fn stud() -> Part {
    let mut b = Builder::new("Tool-post stud", "1.000", "4.875", "4.750 ±0.010");
    b.thread("5/8-11 UNC-2A", 6250, 11, (6234, 6113), (5644, 5589), "0.875");
    b.relief("0.485 ±0.005", "1.125");
    b.kept("1.375").named("collar");
    b.turn(size("0.620 +0/-0.002"), "3.500").named("shank");
    b.thread("5/8-18 UNF-2A", 6250, 18, (6236, 6149), (5875, 5828), "4.750");
    b.chamfer("0.060", End::Datum);
    b.chamfer("0.040", End::Far);
    b.center_holes(true, Ends::Both);
    b.part
}

/// P2, conveyor idler shaft.
pub(crate) fn idler() -> Part {
    let mut b = Builder::new("Conveyor idler shaft", "1.250", "12.375", "12.250 ±0.010");
    b.turn(size("0.9998..1.0002"), "0.800").named("left seat").finish_nm(813).carry("bearing", size("1.000"));
    b.kept("11.450").named("body");
    b.turn(size("0.9998..1.0002"), "12.250").named("right seat").finish_nm(813).carry("bearing", size("1.000"));
    b.groove("0.940 ±0.003", "0.254", "0.046").named("left ring groove");
    b.groove("0.940 ±0.003", "11.950", "0.046").named("right ring groove");
    b.chamfer("0.030", End::Datum);
    b.chamfer("0.030", End::Far);
    b.center_holes(true, Ends::Both);
    b.part
}

/// P3, line-shaft pulley stub.
pub(crate) fn stub() -> Part {
    let mut b = Builder::new("Pulley stub", "1.250", "7.125", "7.000 ±0.010");
    b.thread("5/8-18 UNF-2A", 6250, 18, (6236, 6149), (5875, 5828), "0.850");
    b.relief("0.545 +0/-0.010", "1.000");
    b.turn(size("0.8745 +0/-0.0005"), "3.250").named("pulley seat").finish_nm(813).carry("pulley", size("0.8750"));
    b.kept("3.650");
    b.turn(size("1.060 ±0.002"), "3.750");
    b.turn(fit(20, "k5", 2, 11), "4.350").named("bearing seat").carry("bearing", fit(20, "k5", -10, 0));
    b.turn(size("0.770 ±0.002"), "6.000");
    b.turn(fit(17, "k5", 1, 9), "6.500").carry("bearing", fit(17, "k5", -8, 0));
    b.relief("0.425 +0/-0.010", "6.620");
    b.thread("1/2-20 UNF-2A", 5000, 20, (4987, 4906), (4662, 4619), "7.000");
    b.woodruff("606", "2.125");
    b.chamfer("0.045", End::Datum);
    b.chamfer("0.040", End::Far);
    b.center_holes(true, Ends::Both);
    b.part
}
