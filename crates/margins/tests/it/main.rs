//! A review in part is the review in full, whatever number of the files is changed.

use rigwright_margins::{Asked, Review};
use rigwright_wellfile::{Disk, Files, Origin, edit, named_rig, read};
use std::collections::BTreeSet;
use std::io;

fn said(review: &Review) -> Vec<String> {
    let line = |asked: &Asked| format!("{} {:?} {:?} {:?}", asked.question.slug, asked.section, asked.situation, asked.answer);
    review.answers.iter().map(line).collect()
}

/// An example, one file of which is changed.
struct Changed {
    name: String,
    text: String,
}

impl Files for Changed {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        if name == self.name { Ok(self.text.clone().into_bytes()) } else { Disk.read(name) }
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        if name == self.name { Ok(self.text.len() as u64) } else { Disk.len(name) }
    }
}

/// A value a little larger than this text's; `None` without a number.
fn larger(text: &str) -> Option<String> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (number, rest) = text.split_at(end);
    let value: f64 = number.parse().ok()?;
    let more = if number.contains('.') || !rest.is_empty() { value * 1.01 } else { value + 1.0 };
    Some(format!("{more}{rest}"))
}

/// The entry of a path: without the numbers of sections and parts.
fn entry_of(path: &str) -> String {
    path.chars().filter(|c| !c.is_ascii_digit()).collect()
}

/// Definition, by every number that can be written, each in one well and one section of it.
#[test]
fn law_whatever_number_is_changed_a_review_in_part_is_the_review_in_full() {
    let (mut seen, mut read_at_all, mut otherwise) = (BTreeSet::new(), 0, 0);
    for (name, section) in [("ostrick", "[1]"), ("quellmere", "[0]"), ("tolvane", "[2]")] {
        let well = format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(&well).expect("the example is there");
        let rig = format!("{}/../../examples/{}", env!("CARGO_MANIFEST_DIR"), named_rig(&text).expect("it names a rig"));
        let rig_text = std::fs::read_to_string(&rig).expect("its rig is there");
        let loaded = read(&well, None, &Disk).expect("the example is right");
        let review = Review::without_remedies(&loaded.fit);
        for (path, origin) in loaded.provenance.iter() {
            let elsewhere = path.starts_with("section[") && !path.starts_with(&format!("section{section}"));
            let (Origin::Given { text: written, .. } | Origin::Defaulted { text: written, .. }) = origin;
            let Some(value) = larger(written) else { continue };
            if elsewhere || seen.contains(&entry_of(path)) {
                continue;
            }
            let (file, text) = if path.starts_with("rig.") { (&rig, &rig_text) } else { (&well, &text) };
            let Ok(text) = edit(text, [(path, value.as_str())]) else { continue };
            let Ok(changed) = read(&well, None, &Changed { name: file.clone(), text }) else { continue };
            seen.insert(entry_of(path));
            read_at_all += 1;
            let full = Review::without_remedies(&changed.fit);
            let again = Review::again(&changed.fit, &loaded.fit, &review);
            assert_eq!(said(&again), said(&full), "{name} {path} = {value}");
            assert!(again.programme == full.programme, "{name} {path} = {value}");
            otherwise += usize::from(said(&full) != said(&review));
        }
    }
    assert!(read_at_all > 150 && otherwise > 100, "{read_at_all} {otherwise}");
}
