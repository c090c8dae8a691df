//! Tests of what comes out of the press, as its readers meet it: text and places of words in the PDF, figures of a
//! workbook that another program has worked out again.

#[cfg(feature = "pdf")]
mod extremes;
#[cfg(feature = "pdf")]
mod paper;
#[cfg(feature = "pdf")]
mod record;
mod workbook;

use jiff::Timestamp;
use rigwright_margins::Review;
use rigwright_papers::Subject;
use rigwright_papers::paper::{Desk, fingerprint};
use rigwright_units::System;
use rigwright_wellfile::{Disk, Loaded, read};

/// The moment for which all papers are made.
const AS_OF: &str = "2026-12-01T06:00:00Z";

fn demo(name: &str) -> Loaded {
    read(&format!("{}/../../examples/{name}", env!("CARGO_MANIFEST_DIR")), None, &Disk).expect("a demo reads")
}

/// Works with the review of a well.
fn with_desk<T>(loaded: &Loaded, units: System, beside: Option<System>, work: impl FnOnce(&Desk) -> T) -> T {
    let review = Review::new(&loaded.fit);
    let subject = Subject {
        file: "well.toml",
        rig_file: None,
        fit: &loaded.fit,
        provenance: &loaded.provenance,
        cautions: &loaded.cautions,
        review: &review,
        as_of: AS_OF.parse::<Timestamp>().expect("a moment"),
        units,
    };
    let print = fingerprint(&loaded.sources);
    work(&Desk { subject: &subject, beside, fingerprint: &print, version: "0.0.0", section: None })
}
