//! How long all checks take together on each sample, and which take longest.
//!
//! `cargo bench --bench checks`. The limit stands beside the numbers; nothing is asserted, since machines differ.

use std::path::Path;
use std::time::Duration;

use cpu_time::ProcessTime;
use turnwright::chain::{self, Profile};
use turnwright::check::{self, ALL, Facts};
use turnwright::{plan, read};

const ROUNDS: u32 = 400;

fn main() {
    println!("{:36} {:>10}  limit 500 µs; the slowest", "sample", "all");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let mut files: Vec<_> = std::fs::read_dir(&folder).expect("samples/").flatten().map(|e| e.path()).collect();
    files.sort();
    for file in files.into_iter().filter(|f| f.extension().is_some_and(|e| e == "yaml")) {
        let Ok(loaded) = read::load(&file.to_string_lossy()) else { continue };
        let Some(part) = loaded.part.part.as_ref().filter(|p| !p.features.is_empty()) else { continue };
        let shop_read = loaded.shop.and_then(Result::ok);
        let shop = shop_read.as_ref().and_then(|s| s.shop.as_ref());
        let chain = chain::locate(part);
        let profile = Profile::of(part, &chain);
        let derived = plan::derive(part, &chain, &profile, shop);
        let facts = Facts {
            part,
            slips: &loaded.part.slips,
            chain: &chain,
            profile: &profile,
            shop,
            derived: Some(&derived),
            plan: None,
        };
        let begun = ProcessTime::now();
        let mut found = 0;
        for _ in 0..ROUNDS {
            found += check::check(&facts).len();
        }
        let whole = begun.elapsed() / ROUNDS;
        let mut each: Vec<(Duration, &str)> = ALL.iter().map(|c| (time(c, &facts), c.id)).collect();
        each.sort_unstable();
        let slowest: Vec<String> = each.iter().rev().take(6).map(|(t, id)| format!("{id} {t:.1?}")).collect();
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        println!("{name:36} {whole:>10.1?}  {} findings; {}", found / ROUNDS as usize, slowest.join(", "));
    }
}

fn time(one: &check::Check, facts: &Facts<'_>) -> Duration {
    let begun = ProcessTime::now();
    for _ in 0..ROUNDS {
        let mut out = Vec::new();
        (one.look)(facts, &mut out);
        std::hint::black_box(out);
    }
    begun.elapsed() / ROUNDS
}
