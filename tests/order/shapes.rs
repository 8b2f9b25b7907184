//! Ordering problems in the shape of real parts, of any size.

use turnwright::plan::order::{Cost, Minutes, Op, Problem, Setup};

const ENDS: [&str; 2] = ["datum", "far"];

/// A problem being written down. Setup 8 minutes, tool 1 minute: the usual of a small shop (common practice, no source).
struct Draft(Problem);

impl Draft {
    fn new() -> Self {
        Self(Problem {
            setup_change: Cost::Same(Minutes::whole(8)),
            setup_first: Cost::Same(Minutes::whole(8)),
            tool_change: Minutes::whole(1),
            tool_first: Minutes::whole(1),
            ..Problem::default()
        })
    }

    fn setup(&mut self, holding: &str, end: &str) -> String {
        let name = format!("{holding} {end}").trim_end().to_owned();
        self.0.setups.push(Setup { name: name.clone(), holding: holding.into(), datum_end: end.into() });
        name
    }

    /// An operation after others; its cost differs from the next one's so that none are alike by accident.
    fn op(&mut self, id: &str, tool: &str, setups: &[String], after: &[&str]) {
        let cost = Cost::Same(Minutes::from_thousandths(1000 + 10 * self.0.ops.len() as u64));
        let (verb, feature) = id.split_once(' ').unwrap_or((id, ""));
        self.0.ops.push(Op {
            id: id.into(),
            setups: setups.to_vec(),
            tool: tool.into(),
            cost,
            verb: verb.into(),
            feature: feature.into(),
            end: None,
        });
        self.0.precedences.extend(after.iter().map(|a| ((*a).to_owned(), id.to_owned())));
    }

    fn needs(&mut self, setup: &str, ops: &[&str]) {
        self.0.setup_needs.entry(setup.into()).or_default().extend(ops.iter().map(|o| (*o).to_owned()));
    }
}

/// A shaft with `k` seats at each end, each roughed, finished, grooved and chamfered, a thread at each end and a keyseat:
/// 8 k + 7 operations. Where `rough_first`, all is roughed before anything is finished.
pub(crate) fn two_ended_shaft(k: usize, rough_first: bool) -> Problem {
    let mut d = Draft::new();
    for end in ENDS {
        let chuck = d.setup("chuck", end);
        let supported = d.setup("chuck and center", end);
        let centers = d.setup("between centers", end);
        let (face, center, thread) = (format!("face {end}"), format!("center {end}"), format!("thread {end}"));
        let any = [chuck.clone(), supported.clone(), centers.clone()];
        d.op(&face, "facing", std::slice::from_ref(&chuck), &[]);
        d.op(&center, "center drill", &[chuck], &[&face]);
        let mut chamfers = Vec::new();
        for i in 0..k {
            let name = |verb: &str| format!("{verb} {end} seat {i}");
            d.op(&name("rough"), "roughing", &any, &[&center]);
            d.op(&name("finish"), "finishing", &any[1..], &[&name("rough")]);
            d.op(&name("groove"), "grooving", &any[1..], &[&name("finish")]);
            d.op(&name("chamfer"), "chamfer", &any[1..], &[&name("groove")]);
            chamfers.push(name("chamfer"));
        }
        let chamfers: Vec<&str> = chamfers.iter().map(String::as_str).collect();
        d.op(&thread, "threading 60°", &any[1..], &chamfers);
        d.needs(&supported, &[&center]);
        d.needs(&centers, &["center datum", "center far"]);
    }
    let mill = d.setup("mill vise", "");
    d.op("mill keyseat", "woodruff cutter", &[mill], &["finish datum seat 0"]);
    if rough_first {
        let ids = |verb: &str| -> Vec<String> {
            d.0.ops.iter().filter(|op| op.verb == verb).map(|op| op.id.clone()).collect()
        };
        let pairs: Vec<_> =
            ids("rough").into_iter().flat_map(|a| ids("finish").into_iter().map(move |b| (a.clone(), b))).collect();
        d.0.precedences.extend(pairs);
    }
    d.0
}

/// A shaft of about 8 k + 7 operations that differ from seat to seat, with six holdings to choose from at each end: some
/// wait for a finished surface, some end with one, and two seats at each end must be finished in one mounting.
pub(crate) fn many_holdings(k: usize) -> Problem {
    let mut d = Draft::new();
    for (e, end) in ENDS.into_iter().enumerate() {
        let jaws = ["chuck", "four jaws", "collet", "steady rest"].map(|holding| d.setup(holding, end));
        let true_running = ["chuck and center", "between centers"].map(|holding| d.setup(holding, end));
        let (face, center) = (format!("face {end}"), format!("center {end}"));
        let any = [&jaws[..], &true_running[..]].concat();
        let fine = [&jaws[1..3], &true_running[..]].concat();
        d.op(&face, "facing", &jaws, &[]);
        d.op(&center, "center drill", &jaws, &[&face]);
        for i in 0..k {
            let name = |verb: &str| format!("{verb} {end} seat {i}");
            let before = if i == 0 { face.clone() } else { format!("rough {end} seat {}", i - 1) };
            d.op(&name("rough"), "roughing", &any, &[&before]);
            d.op(&name("finish"), "finishing", &fine, &[&name("rough")]);
            let kind = (i + e) % 4;
            if kind != 0 {
                let tool = if kind == 1 { "grooving" } else { "grooving, narrow" };
                d.op(&name("groove"), tool, &any, &[&name("rough")]);
            }
            if kind != 1 {
                d.op(&name("chamfer"), "chamfer", &any, &[&name("finish")]);
            }
            if kind == 2 {
                d.op(&name("file"), "file", &any, &[&name("finish")]);
            }
            if kind == 3 {
                d.op(&name("thread"), "threading 60°", &fine, &[&name("groove"), &name("chamfer")]);
            }
        }
        let grips = ENDS[1 - e];
        let finished = (0..k).map(|i| format!("finish {grips} seat {i}")).collect();
        d.0.setup_ends.insert(jaws[0].clone(), finished);
        d.needs(&jaws[2], &[&format!("finish {grips} seat 0")]);
        d.needs(&jaws[3], &[&format!("rough {end} seat 0")]);
        d.needs(&true_running[0], &[&center]);
        d.needs(&true_running[1], &["center datum", "center far"]);
        if k > 1 {
            d.0.same_setup.push((format!("finish {end} seat 0"), format!("finish {end} seat 1")));
        }
    }
    let mill = [d.setup("mill vise", ""), d.setup("v-blocks", "")];
    d.op("mill keyseat", "woodruff cutter", &mill, &["finish datum seat 0"]);
    d.op("drill cross hole", "drill", &mill, &["finish far seat 0"]);
    d.op("deburr all", "file", &mill, &["mill keyseat", "drill cross hole"]);
    d.0
}

/// The same, where each end stands out of two chucks and what lies between the ends may be cut from either: in each, once the end that stands
/// out there is faced.
pub(crate) fn gated(k: usize) -> Problem {
    let mut d = Draft(many_holdings(k));
    let chucks: Vec<(String, String)> = ENDS
        .into_iter()
        .flat_map(|end| ["chuck", "four jaws"].map(|holding| (format!("{holding} {end}"), format!("face {end}"))))
        .collect();
    let setups: Vec<String> = chucks.iter().map(|(setup, _)| setup.clone()).collect();
    for i in 0..=k {
        for verb in ["rough", "groove"] {
            let id = format!("{verb} middle {i}");
            let after = if verb == "groove" { vec![format!("rough middle {i}")] } else { Vec::new() };
            d.op(
                &id,
                if verb == "rough" { "roughing" } else { "grooving" },
                &setups,
                &after.iter().map(String::as_str).collect::<Vec<_>>(),
            );
            for (setup, face) in &chucks {
                d.0.setup_gates.entry(setup.clone()).or_default().push((id.clone(), face.clone()));
            }
        }
    }
    d.0
}

/// The same, where each operation takes up to half as long again in one holding as in another.
pub(crate) fn unlike_costs(k: usize) -> Problem {
    let mut problem = many_holdings(k);
    for (i, op) in problem.ops.iter_mut().enumerate() {
        let Cost::Same(least) = op.cost else { continue };
        let more = |s: usize| least.thousandths() * ((i * 7 + s * 3) % 6) as u64 / 10;
        let each = op.setups.iter().enumerate();
        let each = each.map(|(s, name)| (name.clone(), Minutes::from_thousandths(least.thousandths() + more(s))));
        op.cost = Cost::Each(each.collect());
    }
    problem
}
