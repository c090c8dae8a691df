//! A review in part is the review in full, whatever differs.

use super::*;
use rigwright_wellfile::{ENTRIES, Step};

fn said(review: &Review) -> Vec<String> {
    let line = |asked: &Asked| format!("{} {:?} {:?} {:?}", asked.question.slug, asked.section, asked.situation, asked.answer);
    review.answers.iter().map(line).collect()
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
        let fit = crate::example(name);
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
    let fit = crate::example("ostrick");
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
