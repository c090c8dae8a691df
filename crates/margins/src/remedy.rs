//! Remedies: the smallest turn of one knob that turns a verdict, found by asking again on the knob's own steps.
//!
//! Only what the crew may choose is turned. Each candidate is asked everything that it could spoil and says what it does; the
//! best spoils nothing, then is easiest, then takes fewest steps. A well that is shut in or kicking has no remedy here.
//!
//! A figure that no limit judges cannot be spoilt and is not asked for again, and a candidate that spoils as much as the best so
//! far is looked at no further. The same turn of the same knob is looked at once, whichever answer asked for it.

use crate::review::{Asked, Review, Swept, ask_one, ask_rig, ask_section};
use crate::{Answer, Basis, Question, Scene, Verdict, sweep};
use rigwright_physics::Off;
use rigwright_well::{Fit, Situation};
use rigwright_wellfile::{Knob, Step, knob};
use std::collections::HashSet;

/// How far a knob is turned in search of a remedy.
const MOST_STEPS: usize = 60;

/// Settings closer than this are one: far below any step of a knob, whatever its kind. [SI]
const SAME: f64 = 1e-9;

/// One turn of one knob that mends an answer.
#[derive(Clone)]
pub struct Remedy {
    /// The knob.
    pub knob: &'static Knob,
    /// The section whose knob it is; `None` for a knob of the rig.
    pub section: Option<usize>,
    /// Where it stands. [SI]
    pub from: f64,
    /// Where it is to be put. [SI]
    pub to: f64,
    /// How many of its own steps that is.
    pub steps: usize,
    /// The answer's verdict with it.
    pub mended: Verdict,
    /// What it would spoil elsewhere.
    pub spoils: Vec<Spoilt>,
}

/// A verdict that a remedy would make worse.
#[derive(Clone, Debug, PartialEq)]
pub struct Spoilt {
    /// The question.
    pub slug: &'static str,
    /// The section; `None` for the rig as a whole.
    pub section: Option<usize>,
    /// What it was.
    pub before: Verdict,
    /// What it would become.
    pub after: Verdict,
}

/// Looks for the remedy of every answer that is short or thin.
pub(crate) fn seek(fit: &Fit, review: &mut Review) {
    let before = review.clone();
    let mut seen = Vec::new();
    for asked in &mut review.answers {
        if matches!(asked.verdict(), Verdict::Short | Verdict::Thin) {
            asked.remedy = best(fit, &before, asked, &mut seen);
        }
    }
}

/// What a turn spoils, as far as it was looked at.
struct Seen {
    knob: &'static str,
    section: Option<usize>,
    to: f64,
    spoils: Vec<Spoilt>,
    /// Whether everything was asked; otherwise it spoils at least this.
    whole: bool,
}

fn best(fit: &Fit, before: &Review, asked: &Asked, seen: &mut Vec<Seen>) -> Option<Remedy> {
    let mut candidates: Vec<Remedy> =
        asked.question.knobs.iter().filter_map(|name| turn(fit, before, asked, knob(name)?)).collect();
    candidates.sort_by_key(|remedy| (remedy.knob.ease, remedy.steps));
    let mut kept: Option<Remedy> = None;
    for mut candidate in candidates {
        let enough = kept.as_ref().map_or(usize::MAX, |kept| kept.spoils.len());
        candidate.spoils = looked_at(fit, before, &candidate, enough, seen);
        if candidate.spoils.is_empty() {
            return Some(candidate);
        }
        if kept.as_ref().is_none_or(|kept| candidate.spoils.len() < kept.spoils.len()) {
            kept = Some(candidate);
        }
    }
    kept
}

/// The smallest turn of a knob after which the question is no longer short (or thin).
///
/// A direction whose first step leaves no more room is not followed: no knob mends by first making things worse. The
/// situations that governed so far are looked at first; the whole section is asked again only when all of them turned.
fn turn(fit: &Fit, before: &Review, asked: &Asked, knob: &'static Knob) -> Option<Remedy> {
    let section = asked.situation.section;
    let from = (knob.get)(fit, section)?;
    let (question, wanted) = (asked.question, asked.verdict());
    let mut governing = vec![asked.situation];
    let mut shut: [Option<bool>; 2] = [None; 2];
    for (steps, to) in settings(fit, knob, section, from) {
        let direction = usize::from(to > from);
        if shut[direction] == Some(true) {
            continue;
        }
        let mut turned = fit.clone();
        (knob.set)(&mut turned, section, to);
        let basis = Basis::after(&turned, turned.differs(fit), &before.programme);
        let first = ask_again(&basis, question, &asked.situation);
        if shut[direction].is_none() {
            let gained = first.room() > asked.answer.room();
            shut[direction] = Some(!gained);
        }
        let better = |answer: &Answer| answer.judged().is_some() && answer.verdict() > wanted;
        if !better(&first) || !governing[1..].iter().all(|situation| better(&ask_again(&basis, question, situation))) {
            continue;
        }
        let again = ask_one(&basis, question, asked.section)?;
        if better(&again.answer) {
            let section = knob.per_section.then_some(section);
            return Some(Remedy { knob, section, from, to, steps, mended: again.verdict(), spoils: Vec::new() });
        }
        governing.push(again.situation);
    }
    None
}

/// The answer in the situation of the same operation and depths in a turned fit.
fn ask_again(basis: &Basis, question: &Question, was: &Situation) -> Answer {
    let situation = sweep::situation(basis.fit, was.section, was.operation, was.hole_depth, was.bit_depth);
    (question.ask)(&Scene::new(basis, situation), &mut Off)
}

/// The settings of a knob to try, nearest first, each with its number of steps.
fn settings(fit: &Fit, knob: &Knob, section: usize, from: f64) -> Vec<(usize, f64)> {
    let allowed = (knob.allowed)(fit, section);
    match knob.step {
        Step::By(step) => (1..=MOST_STEPS)
            .flat_map(|count| [(count, from + step * count as f64), (count, from - step * count as f64)])
            .filter(|(_, to)| allowed.contains(*to))
            .collect(),
        Step::Among(choices) => {
            let choices = choices(fit, section);
            let here = choices.iter().filter(|choice| **choice < from - SAME).count();
            let mut settings: Vec<(usize, f64)> = choices
                .iter()
                .enumerate()
                .filter(|(_, choice)| (**choice - from).abs() > SAME && allowed.contains(**choice))
                .map(|(index, choice)| (index.abs_diff(here).max(1), *choice))
                .collect();
            settings.sort_by_key(|(steps, _)| *steps);
            settings
        }
    }
}

/// What a remedy spoils: from what was seen already, or else asked now. No further than `enough`.
fn looked_at(fit: &Fit, before: &Review, remedy: &Remedy, enough: usize, seen: &mut Vec<Seen>) -> Vec<Spoilt> {
    let same =
        |one: &Seen| one.knob == remedy.knob.name && one.section == remedy.section && one.to.to_bits() == remedy.to.to_bits();
    let place = seen.iter().position(same);
    if let Some(one) = place.and_then(|place| seen.get(place)).filter(|one| one.whole || one.spoils.len() >= enough) {
        return one.spoils.clone();
    }
    let (spoils, whole) = spoils(fit, before, remedy, enough);
    let now = Seen { knob: remedy.knob.name, section: remedy.section, to: remedy.to, spoils: spoils.clone(), whole };
    match place.and_then(|place| seen.get_mut(place)) {
        Some(one) => *one = now,
        None => seen.push(now),
    }
    spoils
}

/// What a remedy spoils, and whether everything was asked: it stops where `enough` is spoilt.
fn spoils(fit: &Fit, before: &Review, remedy: &Remedy, enough: usize) -> (Vec<Spoilt>, bool) {
    let mut turned = fit.clone();
    (remedy.knob.set)(&mut turned, remedy.section.unwrap_or(0), remedy.to);
    let changed = turned.differs(fit);
    let basis = Basis::after(&turned, changed, &before.programme);
    let spoilable = |asked: &&Asked| asked.verdict() != Verdict::Told && asked.stands_on.meets(changed);
    let reached: HashSet<_> = before.answers.iter().filter(spoilable).map(|asked| (asked.question.slug, asked.section)).collect();
    let mut spoils = Vec::new();
    for place in (0..turned.well.sections.len()).map(Some).chain([None]) {
        if spoils.len() >= enough {
            return (spoils, false);
        }
        let wanted = |question: &Question| reached.contains(&(question.slug, place));
        let asked = match place {
            Some(section) => ask_section(&basis, &Swept::new(&turned, section), wanted),
            None => ask_rig(&basis, wanted),
        };
        add_spoilt(before, &asked, &mut spoils);
    }
    (spoils, true)
}

fn add_spoilt(before: &Review, asked: &[Asked], spoils: &mut Vec<Spoilt>) {
    for asked in asked {
        let Some(was) = before.find(asked.question.slug, asked.section) else { continue };
        // An answer that is short and gets shorter is spoilt too.
        let shorter = asked.verdict() == Verdict::Short && asked.answer.rank(&was.answer).is_lt();
        if shorter || (asked.verdict() < was.verdict() && asked.verdict() <= Verdict::Thin) {
            spoils.push(Spoilt {
                slug: asked.question.slug,
                section: asked.section,
                before: was.verdict(),
                after: asked.verdict(),
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is left out of the search changes nothing: a whole review of the turned well spoils just what the remedy says.
    #[test]
    fn law_a_remedy_spoils_what_a_whole_review_spoils() {
        let fit = crate::example("tolvane");
        let before = Review::without_remedies(&fit);
        let mut remedies = 0;
        for remedy in Review::new(&fit).answers.into_iter().filter_map(|asked| asked.remedy) {
            let mut turned = fit.clone();
            (remedy.knob.set)(&mut turned, remedy.section.unwrap_or(0), remedy.to);
            let (mut whole, mut told) = (Vec::new(), remedy.spoils.clone());
            add_spoilt(&before, &Review::without_remedies(&turned).answers, &mut whole);
            for list in [&mut whole, &mut told] {
                list.sort_by_key(|one| (one.slug, one.section));
            }
            assert_eq!(whole, told, "{} to {}", remedy.knob.name, remedy.to);
            remedies += 1;
        }
        assert!(remedies >= 3, "{remedies}");
    }

    #[test]
    fn law_the_same_turn_is_looked_at_once_and_as_far_as_is_asked() {
        let fit = crate::example("tolvane");
        let review = Review::new(&fit);
        let before = Review::without_remedies(&fit);
        let Some(remedy) = review.answers.iter().find_map(|asked| asked.remedy.clone()) else { panic!("nothing to mend") };
        let mut seen = Vec::new();
        let none = looked_at(&fit, &before, &remedy, 0, &mut seen);
        assert!(none.is_empty() && !seen[0].whole, "nothing is asked where nothing is enough");
        let all = looked_at(&fit, &before, &remedy, usize::MAX, &mut seen);
        assert_eq!(all, remedy.spoils);
        assert!(seen.len() == 1 && seen[0].whole);
        assert_eq!(looked_at(&fit, &before, &remedy, 1, &mut seen), remedy.spoils);
    }
}
