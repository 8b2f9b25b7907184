use crate::hand::figures_of;
use turnwright::chain::{self, Profile};
use turnwright::figures::*;
use turnwright::read;
#[test]
fn look() {
    let Ok(dir) = std::env::var("LOOK") else { return };
    let name = std::path::Path::new(&dir);
    let p = read::part("p", &std::fs::read(name).unwrap());
    for s in &p.slips { println!("SLIP {s:?}"); }
    let part = p.part.unwrap();
    let shop = part.lathe.as_ref().map(|l| { let r = read::shop("s", &std::fs::read(name.parent().unwrap().join(&l.text)).unwrap()); r.shop.unwrap() });
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = turnwright::plan::plan(&part, &chain, &profile, shop.as_ref(), 5).unwrap();
    let plan = planned.plan;
    let f = figures_of(&part, &plan, shop.as_ref());
    let u = part.units;
    let t = |x: Option<Figure>| x.map_or("-".into(), |x| x.text(u));
    for (s, g) in plan.setups.iter().zip(&f.setups) {
        println!("\n== setup {} {} datum {} grip {:?} proud {} mark {:?} zero {:?} corr {}", s.number, s.holding.word(), s.datum_end.word(), s.grip.as_ref().map(|g| (g.from.0.inches(), g.to.0.inches(), g.diameter.inches(), g.protect)), t(g.proud), g.grip_mark, g.zero, g.correction.is_some());
        for (o, q) in s.operations.iter().zip(&g.operations) {
            let feat = o.feature.map_or("", |i| part.features[i].letter.as_str());
            let with: Vec<_> = o.with.iter().map(|i| part.features[*i].letter.clone()).collect();
            println!("{:>4} {} {} {:?} {}->{} lim {} close {} | {} | feed {} passes {} | cross {} | {}",
                o.number, o.verb.word(), feat, with, t(q.from), t(q.aim), q.limits.map_or("-".into(), |l| format!("{}/{}", l.max.text(u), l.min.text(u))), o.close,
                q.speed.as_ref().map_or("-".into(), |s| format!("{:?} ({:.0}) {:.0}", s.gear, s.wanted, s.surface_in(u))), t(q.feed),
                q.passes.as_ref().map_or("-".into(), |p| format!("{} x {}", p.count, p.depth.text(u))),
                q.cross_dial.map_or("-".into(), |c| format!("{} zero {} on {:?} {} = {}+{}", c.infeed.shown.text(u), c.zero.diameter.text(u), c.zero.feature.map(|i| part.features[i].letter.clone()), c.from_zero.shown.text(u), c.from_zero.turns, c.from_zero.rest.text(u))),
                q.positions.iter().map(|p| format!("{} {} [{}] {}", p.what, p.from_datum.text(u), t(p.carriage), p.edge.word())).collect::<Vec<_>>().join("; "));
            if q.stop_before.is_some() || q.stop_after.is_some() || !q.remarks.is_empty() { println!("        {:?} {:?} {:?}", q.stop_before, q.stop_after, q.remarks); }
            if q.job != Job::Plain { println!("        {:?}", q.job); }
        }
    }
    for l in &f.marks.lists { println!("\n{} {} on {}", l.name, l.when, l.standing_on); for m in &l.marks { println!("  {} {} gauge {} on {} ({}) after {} means {} {}", m.label, m.from_datum.text(u), m.height_gauge.text(u), m.on, m.on_diameter.text(u), m.after, m.means, m.leave.word()); } }
    println!("{:#?}", f.marks.notes);
    for r in &f.inspection { println!("{:4} {:40} {:?} {}/{} {}", r.letters, r.what, r.kind, r.limits.max.text(u), r.limits.min.text(u), r.with); }
    println!("{:#?}\n{:#?}", f.layout, f.cautions);
    for a in &f.assumed { println!("{} | {} | {}", a.what, a.value, a.source); }
    println!("{:?}", f.not_supported);
}
