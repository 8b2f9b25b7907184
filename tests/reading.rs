//! Reading: text to part and shop, and what could not be taken.

use turnwright::read;

/// The samples are the descriptions a user copies: each reads completely, with nothing to say.
#[test]
fn samples_read_completely() {
    for name in ["pulley-stub", "pulley-stub-no-shop", "idler-shaft", "tool-post-stud"] {
        let path = format!("samples/{name}.yaml");
        let read = read::part(&path, &std::fs::read(&path).expect(name));
        assert_eq!(read.slips, [], "{name}");
        assert!(read.part.expect(name).sections().count() >= 3, "{name}");
    }
    let read = read::shop("shop.yaml", &std::fs::read("samples/shop.yaml").expect("shop"));
    assert_eq!(read.slips, []);
    assert_eq!(read.shop.expect("shop").tools.len(), 12);
}
