//! The review: every question asked of every situation in its scope, the governing answer of each question and
//! section kept, the weakest link named, remedies sought.

use crate::programme::Programme;
use crate::remedy::{self, Remedy};
use crate::{Answer, Basis, Question, Scene, Scope, Verdict, questions, sweep};
use rigwright_physics::{FormulaRecord, Line, Off, Working, records};
use rigwright_well::{Fit, Operation, Situation};
use std::collections::BTreeSet;

/// The governing answer of one question in one section.
#[derive(Clone)]
pub struct Asked {
    /// The question.
    pub question: &'static Question,
    /// The section; `None` when the question is asked of the rig as a whole.
    pub section: Option<usize>,
    /// The situation that governs.
    pub situation: Situation,
    /// The answer there.
    pub answer: Answer,
    /// What mends it, when it is short or thin and something does.
    pub remedy: Option<Remedy>,
}

impl Asked {
    /// The word for the answer.
    pub fn verdict(&self) -> Verdict {
        self.answer.verdict()
    }

    /// How the answer came about.
    pub fn working(&self, fit: &Fit) -> Working {
        self.working_on(&Basis::new(fit))
    }

    fn working_on(&self, basis: &Basis) -> Working {
        let mut working = Working::default();
        (self.question.show)(&Scene::new(basis, self.situation), &mut working);
        working
    }
}

/// A review of a well against a rig.
#[derive(Clone)]
pub struct Review {
    /// How many situations were swept.
    pub situations: usize,
    /// Governing answers: by question in the order of the catalogue, then by section.
    pub answers: Vec<Asked>,
    /// The jobs of the well, on which some answers stand: a review of a fit that differs below takes those above over.
    pub programme: Programme,
}

impl Review {
    /// Reviews a fit, remedies included.
    pub fn new(fit: &Fit) -> Review {
        Review::without_remedies(fit).with_remedies(fit)
    }

    /// The same with the remedies of what is short or thin.
    #[must_use]
    pub fn with_remedies(mut self, fit: &Fit) -> Review {
        remedy::seek(fit, &mut self);
        self
    }

    /// Reviews a fit without looking for remedies.
    pub fn without_remedies(fit: &Fit) -> Review {
        Review::from_section(fit, 0, None)
    }

    /// Reviews a fit that differs from one that was reviewed: the same answers as [`Review::without_remedies`] gives, but
    /// only what the difference reaches is asked again. A section stands on those above it and on the next one below; what is
    /// said of the whole well or of the rig reaches every section.
    pub fn again(fit: &Fit, known: &Fit, review: &Review) -> Review {
        Review::from_section(fit, first_reached(fit, known), Some(review))
    }

    /// Asks of every section from this one down, and of the rig; the answers of those above are taken over.
    fn from_section(fit: &Fit, first: usize, known: Option<&Review>) -> Review {
        let basis = known.map_or_else(|| Basis::new(fit), |known| Basis::below(fit, first, &known.programme));
        let known = known.map_or(&[][..], |known| &known.answers);
        let mut situations = 0;
        let taken = known.iter().filter(|asked| asked.section.is_some_and(|section| section < first));
        let mut kept: Vec<Asked> = taken.map(|asked| Asked { remedy: None, ..asked.clone() }).collect();
        for section in 0..fit.well.sections.len() {
            let swept = sweep::in_section(fit, section);
            situations += swept.len();
            if section >= first {
                kept.extend(ask_section(&basis, section, &swept, |_| true));
            }
        }
        kept.extend(ask_rig(&basis, |_| true));
        // In the order of the catalogue; the sort is stable, so sections stay in theirs.
        let place = |asked: &Asked| questions().position(|question| question.slug == asked.question.slug);
        kept.sort_by_cached_key(place);
        Review { situations, answers: kept, programme: basis.into_programme() }
    }

    /// Governing answers from worst to best.
    pub fn ranked(&self) -> Vec<&Asked> {
        let mut ranked: Vec<&Asked> = self.answers.iter().collect();
        // A stable sort: equals stay in the order of the catalogue and the sections.
        ranked.sort_by(|a, b| a.answer.rank(&b.answer));
        ranked
    }

    /// The weakest link: the worst judged answer; unknowns are counted beside it.
    pub fn weakest(&self) -> Option<&Asked> {
        self.ranked().into_iter().find(|asked| asked.answer.judged().is_some())
    }

    /// Answers of one verdict, worst first.
    pub fn of(&self, verdict: Verdict) -> Vec<&Asked> {
        self.ranked().into_iter().filter(|asked| asked.verdict() == verdict).collect()
    }

    /// Every formula that the governing answers rest on, in the order of the manual.
    pub fn formulas(&self, fit: &Fit) -> Vec<&'static FormulaRecord> {
        let basis = Basis::new(fit);
        let mut used = BTreeSet::new();
        for asked in &self.answers {
            for line in asked.working_on(&basis).lines {
                if let Line::Step { record, .. } = line {
                    used.insert(record.slug);
                }
            }
        }
        records().filter(|record| used.contains(record.slug)).collect()
    }

    /// The governing answer of a question in a section.
    pub fn find(&self, slug: &str, section: Option<usize>) -> Option<&Asked> {
        self.answers.iter().find(|asked| asked.question.slug == slug && asked.section == section)
    }
}

/// The first section that the difference of two fits reaches.
pub(crate) fn first_reached(fit: &Fit, known: &Fit) -> usize {
    if !same_but_sections(fit, known) || fit.well.sections.len() != known.well.sections.len() {
        return 0;
    }
    let pairs = fit.well.sections.iter().zip(&known.well.sections);
    // A section knows the mud of the next: it may be weighted up to it, and its casing bears it.
    pairs.take_while(|(now, was)| now == was).count().saturating_sub(1)
}

/// Whether two fits say the same of all but the sections.
fn same_but_sections(a: &Fit, b: &Fit) -> bool {
    let bare = |fit: &Fit| {
        let mut fit = fit.clone();
        fit.well.sections.clear();
        fit
    };
    bare(a) == bare(b)
}

/// The governing answers of one section to those questions of section and situation that are wanted.
pub(crate) fn ask_section(basis: &Basis, section: usize, swept: &[Situation], wanted: impl Fn(&Question) -> bool) -> Vec<Asked> {
    let of = |scope: Scope| questions().filter(move |question| question.scope == scope).filter(|question| wanted(question));
    let end = Scene::new(basis, sweep::section_end(basis.fit, section));
    let mut kept: Vec<Asked> = of(Scope::Section).map(|question| asked(question, Some(section), &end)).collect();
    let mut governing: Vec<(&'static Question, Option<Asked>)> = of(Scope::Situation).map(|question| (question, None)).collect();
    for situation in swept {
        let scene = Scene::new(basis, *situation);
        for (question, slot) in &mut governing {
            keep_worse(slot, asked(question, Some(section), &scene));
        }
    }
    kept.extend(governing.into_iter().filter_map(|(_, slot)| slot));
    kept
}

/// The answers to those questions of the rig as a whole that are wanted.
pub(crate) fn ask_rig(basis: &Basis, wanted: impl Fn(&Question) -> bool) -> Vec<Asked> {
    let Some(last) = basis.fit.well.sections.len().checked_sub(1) else { return Vec::new() };
    let scene = Scene::new(basis, sweep::section_end(basis.fit, last));
    let of_rig = questions().filter(|question| question.scope == Scope::Rig && wanted(question));
    of_rig.map(|question| asked(question, None, &scene)).collect()
}

/// The governing answer of one question in one section.
pub(crate) fn ask_one(basis: &Basis, question: &'static Question, section: Option<usize>) -> Option<Asked> {
    let last = basis.fit.well.sections.len().checked_sub(1)?;
    let index = section.unwrap_or(last);
    let mut slot = None;
    match question.scope {
        Scope::Rig | Scope::Section => {
            slot = Some(asked(question, section, &Scene::new(basis, sweep::section_end(basis.fit, index))));
        }
        Scope::Situation => {
            for situation in sweep::in_section(basis.fit, index) {
                keep_worse(&mut slot, asked(question, section, &Scene::new(basis, situation)));
            }
        }
    }
    slot
}

fn keep_worse(slot: &mut Option<Asked>, next: Asked) {
    let worse = slot.as_ref().is_none_or(|kept| next.answer.rank(&kept.answer).is_lt());
    if worse {
        *slot = Some(next);
    }
}

fn asked(question: &'static Question, section: Option<usize>, scene: &Scene) -> Asked {
    Asked { question, section, situation: scene.situation, answer: (question.ask)(scene, &mut Off), remedy: None }
}

/// Where to look: narrows the situations of a question before the governing one is taken.
#[derive(Clone, Copy, Debug, Default)]
pub struct Address {
    /// Index of the section.
    pub section: Option<usize>,
    /// Measured depth of the hole; the nearest situation is taken. [m]
    pub hole_depth: Option<f64>,
    /// Measured depth of the bit; the nearest situation is taken. [m]
    pub bit_depth: Option<f64>,
    /// The operation.
    pub operation: Option<Operation>,
    /// Measured depth along the hole, for questions that are asked at every depth. [m]
    pub at: Option<f64>,
}

/// A figure with its working.
pub struct Explained {
    /// The answer and the situation that it belongs to.
    pub asked: Asked,
    /// How it came about.
    pub working: Working,
}

/// The working of a question at an address: in the governing situation of those that the address leaves.
/// `None` when no situation is left.
pub fn explain(fit: &Fit, question: &'static Question, address: &Address) -> Option<Explained> {
    let basis = Basis::new(fit);
    let sections = (0..fit.well.sections.len()).filter(|section| address.section.is_none_or(|wanted| wanted == *section));
    let mut candidates: Vec<Situation> = match question.scope {
        Scope::Situation => sections.flat_map(|section| sweep::in_section(fit, section)).collect(),
        Scope::Section => sections.map(|section| sweep::section_end(fit, section)).collect(),
        Scope::Rig => fit.well.sections.len().checked_sub(1).map(|last| sweep::section_end(fit, last)).into_iter().collect(),
    };
    candidates.retain(|situation| address.operation.is_none_or(|wanted| wanted == situation.operation));
    nearest(&mut candidates, address.hole_depth, |situation| situation.hole_depth);
    nearest(&mut candidates, address.bit_depth, |situation| situation.bit_depth);
    let scene = |situation| {
        let mut scene = Scene::new(&basis, situation);
        scene.at = address.at;
        scene
    };
    let mut slot = None;
    for situation in candidates {
        let section = (question.scope != Scope::Rig).then_some(situation.section);
        keep_worse(&mut slot, asked(question, section, &scene(situation)));
    }
    let asked: Asked = slot?;
    let mut working = Working::default();
    (question.show)(&scene(asked.situation), &mut working);
    Some(Explained { asked, working })
}

/// Leaves the situations whose depth is nearest to the wanted one.
fn nearest(situations: &mut Vec<Situation>, wanted: Option<f64>, depth: impl Fn(&Situation) -> f64) {
    let Some(wanted) = wanted else { return };
    let off = |situation: &Situation| (depth(situation) - wanted).abs();
    if let Some(best) = situations.iter().map(off).min_by(f64::total_cmp) {
        situations.retain(|situation| off(situation) <= best);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rigwright_wellfile::{ENTRIES, Step};

    fn said(review: &Review) -> Vec<String> {
        let line =
            |asked: &Asked| format!("{} {:?} {:?} {:?}", asked.question.slug, asked.section, asked.situation, asked.answer);
        review.answers.iter().map(line).collect()
    }

    /// Definition: what is asked again in part is asked as in full, whichever knob is turned in whichever section.
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
                    let full = Review::without_remedies(&turned);
                    let part = Review::again(&turned, &fit, &review);
                    assert_eq!(said(&part), said(&full), "{name} {} {section}", knob.name);
                    assert_eq!(part.situations, full.situations);
                    assert_eq!(part.programme, full.programme);
                    turned_at_all += usize::from(said(&full) != said(&review));
                }
            }
        }
        assert!(turned_at_all > 40, "{turned_at_all}");
    }
}
