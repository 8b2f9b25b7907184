//! The sample parts as text, read as a user's file is.

use turnwright::model::{Part, Shop};
use turnwright::read;
use turnwright::unit::Length;

/// P1, tool-post stud.
pub(crate) const STUD: &str = include_str!("../../samples/tool-post-stud.yaml");
/// P2, conveyor idler shaft.
pub(crate) const IDLER: &str = include_str!("../../samples/idler-shaft.yaml");
/// P3, line-shaft pulley stub.
pub(crate) const STUB: &str = include_str!("../../samples/pulley-stub.yaml");
const SHOP: &str = include_str!("../../samples/shop.yaml");

/// Reads a description that has nothing wrong with it.
pub(crate) fn part(text: &str) -> Part {
    let read = read::part("test.yaml", text.as_bytes());
    assert!(read.slips.is_empty(), "{:?}\n{text}", read.slips);
    read.part.expect("a part")
}

/// A description with wishes.
pub(crate) fn with(text: &str, wishes: &str) -> Part {
    part(&format!("{text}\nplan: {{{wishes}}}\n"))
}

/// The sample shop file in the unit of a description.
pub(crate) fn shop_for(text: &str) -> Shop {
    if !text.contains("units: mm\n") {
        return shop();
    }
    let read = read::shop("shop-mm.yaml", include_bytes!("../../samples/shop-mm.yaml"));
    assert!(read.slips.is_empty(), "{:?}", read.slips);
    read.shop.expect("a shop")
}

/// The sample shop file.
pub(crate) fn shop() -> Shop {
    shop_with("")
}

/// The sample shop with more lines.
pub(crate) fn shop_with(more: &str) -> Shop {
    let read = read::shop("shop.yaml", format!("{SHOP}\n{more}\n").as_bytes());
    assert!(read.slips.is_empty(), "{:?}", read.slips);
    read.shop.expect("a shop")
}

/// Thousandths of an inch.
pub(crate) fn thou(n: i64) -> Length {
    Length::micro_inches(n * 1000)
}
