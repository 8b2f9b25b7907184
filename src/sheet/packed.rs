//! A PDF written again with its small objects packed together.
//!
//! Typst writes every element of the tag tree as an object of its own, in plain text; on a sheet those are two thirds of the file.
//! Object streams (ISO 32000-1, 7.5.7) hold the same objects compressed: nothing a reader sees changes, and the file stays
//! PDF 1.7 and PDF/UA-1, which asks nothing of how objects are stored.

use lopdf::{Dictionary, Document, Object, SaveOptions};

/// Objects in one stream: enough that words repeat, few enough that a reader need not unpack the whole file for one.
const TOGETHER: usize = 400;
/// The strongest compression.
const LEVEL: u32 = 9;

/// The same document in fewer bytes, the same ones for the same input. One that cannot be read again is left as it was:
/// it is whole, only larger.
pub(super) fn packed(pdf: Vec<u8>) -> Vec<u8> {
    let Ok(mut document) = Document::load_mem(&pdf) else { return pdf };
    without_defaults(&mut document);
    let options = SaveOptions::builder()
        .use_object_streams(true)
        .use_xref_streams(true)
        .max_objects_per_stream(TOGETHER)
        .compression_level(LEVEL)
        .build();
    let mut out = Vec::with_capacity(pdf.len());
    match document.save_with_options(&mut out, options) {
        Ok(()) if out.len() < pdf.len() => out,
        _ => pdf,
    }
}

/// Takes `Suspects false` out of the mark information: false is what its absence means (ISO 32000-1, table 321), and a common
/// viewer reports any other way of saying it as a syntax error.
fn without_defaults(document: &mut Document) {
    let not_suspect = |d: &Dictionary| matches!(d.get(b"Suspects"), Ok(Object::Boolean(false)));
    let Ok(catalog) = document.catalog_mut() else { return };
    match catalog.get_mut(b"MarkInfo") {
        Ok(Object::Dictionary(info)) if not_suspect(info) => {
            info.remove(b"Suspects");
        }
        Ok(Object::Reference(id)) => {
            let id = *id;
            if let Ok(info) = document.get_dictionary_mut(id)
                && not_suspect(info)
            {
                info.remove(b"Suspects");
            }
        }
        _ => {}
    }
}
