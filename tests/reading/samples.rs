//! Seven samples in ten styles each (`tests/styles/SAMPLE/STYLE.yaml`): every text is read without a slip, and asks the same work.

use std::path::Path;

use turnwright::model::Part;
use turnwright::{chain, plan, read};

/// What the part asks of the lathe: its faces and sections, and every operation derived from it, with sizes and limits.
fn work(part: &Part) -> String {
    let chain = chain::locate(part);
    let profile = chain::Profile::of(part, &chain);
    let faces: Vec<_> = (0..chain.at.len()).map(|i| (chain.at[i], chain.guaranteed(0, i))).collect();
    let pieces: Vec<_> = profile.pieces.iter().map(|p| (p.from, p.to, p.start, p.end)).collect();
    let asked: Vec<_> = chain.distances.iter().map(|(_, d)| (d.from, d.to, d.stated, d.worst_case)).collect();
    let derived = plan::derive(part, &chain, &profile, None);
    let named: Vec<_> = part.features.iter().map(|f| (&f.letter, f.carries.len(), f.finish.is_some())).collect();
    format!("{faces:?}\n{pieces:?}\n{asked:?}\n{named:?}\n{:#?}", derived.operations)
}

#[test]
fn seven_samples_in_ten_styles_ask_the_same_work() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let entries = |folder: &Path| -> Vec<std::path::PathBuf> {
        std::fs::read_dir(folder).expect("the folder").map(|e| e.expect("an entry").path()).collect()
    };
    let (mut parts, mut styles) = (0, 0);
    for folder in entries(&root.join("tests/styles")) {
        let sample = root.join("samples").join(folder.file_name().expect("a name")).with_extension("yaml");
        let plain = read::part("sample", &std::fs::read(sample).expect("its sample")).part.expect("a part");
        let wanted = work(&plain);
        assert!(wanted.len() > 2_000, "there is work to compare");
        for path in entries(&folder) {
            let read = read::part("style", &std::fs::read(&path).expect("a file"));
            assert_eq!(read.slips, [], "{}", path.display());
            assert_eq!(work(&read.part.expect("a part")), wanted, "{}", path.display());
            styles += 1;
        }
        parts += 1;
    }
    assert!(parts >= 7 && styles >= 70, "{parts} parts, {styles} styles");
}
