//! A review in part is the review in full, whatever differs.

use rigwright_margins::{Asked, Review};
use rigwright_well::Fit;
use rigwright_wellfile::{Disk, ENTRIES, Files, Origin, Step, edit, named_rig, read};
use std::collections::BTreeSet;
use std::io;

fn said(review: &Review) -> Vec<String> {
    let line = |asked: &Asked| format!("{} {:?} {:?} {:?}", asked.question.slug, asked.section, asked.situation, asked.answer);
    review.answers.iter().map(line).collect()
}

fn example(name: &str) -> Fit {
    let file = format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    read(&file, None, &Disk).expect("the example is right").fit
}

/// Whether a fit that differs from one is answered otherwise; that a review in part tells the same as one in full.
fn answered_otherwise(fit: &Fit, known: &Fit, review: &Review, name: &str) -> bool {
    let (full, part) = (Review::without_remedies(fit), Review::again(fit, known, review));
    assert_eq!(said(&part), said(&full), "{name}");
    assert_eq!(part.situations, full.situations, "{name}");
    assert!(part.programme == full.programme, "{name}");
    said(&full) != said(review)
}

/// Definition, by every knob of every section.
#[test]
fn law_a_review_in_part_is_the_review_in_full() {
    let mut turned_at_all = 0;
    for name in ["ostrick", "tolvane"] {
        let fit = example(name);
        let review = Review::without_remedies(&fit);
        for knob in ENTRIES.iter().filter_map(|entry| entry.knob) {
            for section in 0..fit.well.sections.len() {
                let Some(now) = (knob.get)(&fit, section) else { continue };
                let to = match knob.step {
                    Step::By(step) => now - step,
                    Step::Among(choices) => {
                        let other = choices(&fit, section).into_iter().find(|choice| (choice - now).abs() > 1e-9);
                        other.unwrap_or(now)
                    }
                };
                let mut turned = fit.clone();
                (knob.set)(&mut turned, section, to);
                let otherwise = answered_otherwise(&turned, &fit, &review, &format!("{name} {} {section}", knob.name));
                turned_at_all += usize::from(otherwise);
            }
        }
    }
    assert!(turned_at_all > 40, "{turned_at_all}");
}

/// A what-if of the hoisting speed leaves what the mud does alone, and one of the mud's weight leaves the sections above alone.
#[test]
fn law_what_does_not_stand_on_a_change_is_not_asked_again() {
    let fit = example("ostrick");
    let review = Review::without_remedies(&fit);
    let share = |turned: &Fit, section: Option<usize>| {
        let changed = turned.differs(&fit);
        let of_section: Vec<_> = review.answers.iter().filter(|asked| section.is_none() || asked.section == section).collect();
        let again = of_section.iter().filter(|asked| asked.stands_on.meets(changed)).count();
        again as f64 / of_section.len() as f64
    };
    let mut faster = fit.clone();
    *faster.rig.drawworks.hoisting_speed *= 1.1;
    assert!(share(&faster, None) > 0.0 && share(&faster, None) < 0.05, "{}", share(&faster, None));
    let mut heavier = fit.clone();
    heavier.well.sections[2].mud.weight *= 1.01;
    assert!(share(&heavier, Some(0)) < 0.1 && share(&heavier, Some(2)) > 0.5);
    let mut renamed = fit.clone();
    renamed.well.name.push('x');
    assert!((share(&renamed, None) - 1.0).abs() < 1e-12, "the rest of the fit is read by everybody");
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
            let name = format!("{name} {path} = {value}");
            otherwise += usize::from(answered_otherwise(&changed.fit, &loaded.fit, &review, &name));
        }
    }
    assert!(read_at_all > 150 && otherwise > 100, "{read_at_all} {otherwise}");
}
