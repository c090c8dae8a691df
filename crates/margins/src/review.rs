//! The review: every question asked of every situation in its scope, the governing answer of each question and
//! section kept, the weakest link named, remedies sought.

use crate::answer::by_standing;
use crate::programme::Programme;
use crate::remedy::{self, Remedy};
use crate::{Answer, Basis, Question, Scene, Scope, Verdict, questions, sweep};
use rigwright_physics::{FormulaRecord, Line, Off, Working, records};
use rigwright_well::{Fit, Hung, Operation, Parts, Situation, noted};
use rustc_hash::{FxBuildHasher, FxHashMap, FxHashSet};
use smallvec::{SmallVec, smallvec};
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
    /// What it was worked out from, in all situations that were looked at.
    pub stands_on: Parts,
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

    /// The same, with more that it was worked out from.
    fn standing_on(self, read: Parts) -> Asked {
        Asked { stands_on: self.stands_on | read, ..self }
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
    /// The jobs of the well, on which some answers stand: a review of a fit that differs takes those over that stay as they are.
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
        Review::completed(Basis::new(fit), Vec::new())
    }

    /// Reviews a fit that differs from one that was reviewed: the same answers as [`Review::without_remedies`] gives, but only
    /// those that stand on something that differs are asked for again.
    pub fn again(fit: &Fit, known: &Fit, review: &Review) -> Review {
        let changed = fit.differs(known);
        let taken = review.answers.iter().filter(|asked| !asked.stands_on.meets(changed));
        let taken = taken.map(|asked| Asked { remedy: None, ..asked.clone() }).collect();
        Review::completed(Basis::after(fit, changed, &review.programme), taken)
    }

    /// A review of which some answers are known: asks the others.
    fn completed(basis: Basis, taken: Vec<Asked>) -> Review {
        let known: FxHashSet<_> = taken.iter().map(|asked| (asked.question.slug, asked.section)).collect();
        let wanted = |section: Option<usize>| {
            let known = &known;
            move |question: &Question| !known.contains(&(question.slug, section))
        };
        let (mut situations, mut answers) = (0, taken);
        let sections = 0..basis.fit.well.sections.len();
        for section in sections.clone() {
            let swept = Swept::new(basis.fit, section);
            situations += swept.situations.len();
            answers.extend(ask_situations(&basis, &swept, wanted(Some(section))));
        }
        // The jobs of the well read the loads that were found under way.
        answers.extend(sections.flat_map(|section| ask_end(&basis, section, wanted(Some(section)))));
        answers.extend(ask_rig(&basis, wanted(None)));
        let places: FxHashMap<_, _> = questions().enumerate().map(|(place, question)| (question.slug, place)).collect();
        answers.sort_by_cached_key(|asked| (places.get(asked.question.slug), asked.section));
        Review { situations, answers, programme: basis.into_programme() }
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
        self.answers.iter().filter(|asked| asked.answer.judged().is_some()).min_by(|a, b| a.answer.rank(&b.answer))
    }

    /// Answers of one verdict, worst first.
    pub fn of(&self, verdict: Verdict) -> Vec<&Asked> {
        let mut of: Vec<&Asked> = self.answers.iter().filter(|asked| asked.verdict() == verdict).collect();
        of.sort_by(|a, b| a.answer.rank(&b.answer));
        of
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

/// The situations of a section.
pub(crate) struct Swept {
    section: usize,
    /// In the order in which the crew meets them.
    pub(crate) situations: Vec<Situation>,
    /// Their places, those together that have the same pipe at the same place in the same hole.
    with_same_pipe: Vec<SmallVec<[usize; 6]>>,
    /// What laying them out read.
    read: Parts,
}

impl Swept {
    pub(crate) fn new(fit: &Fit, section: usize) -> Swept {
        let (situations, read) = noted(|| sweep::in_section(fit, section));
        let mut with_same_pipe: Vec<SmallVec<[usize; 6]>> = Vec::new();
        let mut known = FxHashMap::with_capacity_and_hasher(situations.len(), FxBuildHasher);
        for (place, situation) in situations.iter().enumerate() {
            let Situation { hung, hole_depth, bit_depth, .. } = situation;
            let pipe = (*hung == Hung::Casing, hole_depth.to_bits(), bit_depth.to_bits());
            let alike = *known.entry(pipe).or_insert(with_same_pipe.len());
            match with_same_pipe.get_mut(alike) {
                Some(places) => places.push(place),
                None => with_same_pipe.push(smallvec![place]),
            }
        }
        Swept { section, situations, with_same_pipe, read }
    }
}

/// Operations in which some question asked for the tension of the string: others like them will be asked for it too.
#[derive(Default)]
struct Dragged(Vec<Operation>);

impl Dragged {
    /// Works out tensions two by two. Casing has two of its own in each situation.
    fn ahead(&self, scenes: &[Scene]) {
        let of = |scene: &&Scene| self.0.contains(&scene.situation.operation) && !scene.drag_is_known();
        let scenes: SmallVec<[&Scene; 6]> = scenes.iter().filter(of).collect();
        for pair in scenes.chunks_exact(2) {
            Scene::drag_both([pair[0], pair[1]]);
        }
    }

    fn learn(&mut self, scenes: &[Scene]) {
        for scene in scenes.iter().filter(|scene| scene.drag_is_known()) {
            let operation = scene.situation.operation;
            if operation != Operation::RunningCasing && !self.0.contains(&operation) {
                self.0.push(operation);
            }
        }
    }
}

/// Questions of a scope, those of them that are wanted.
fn of(scope: Scope, wanted: impl Fn(&Question) -> bool) -> impl Iterator<Item = &'static Question> {
    questions().filter(move |question| question.scope == scope && wanted(question))
}

/// The governing answers of one section to those questions of section and situation that are wanted.
pub(crate) fn ask_section(basis: &Basis, swept: &Swept, wanted: impl Fn(&Question) -> bool) -> Vec<Asked> {
    let mut answers = ask_end(basis, swept.section, &wanted);
    answers.extend(ask_situations(basis, swept, wanted));
    answers
}

/// The answers at the end of a section to those questions of the section that are wanted.
fn ask_end(basis: &Basis, section: usize, wanted: impl Fn(&Question) -> bool) -> Vec<Asked> {
    let (end, read) = noted(|| Scene::new(basis, sweep::section_end(basis.fit, section)));
    of(Scope::Section, wanted).map(|question| asked(question, Some(section), &end).standing_on(read)).collect()
}

/// The governing answers of one section to those questions of each situation that are wanted.
fn ask_situations(basis: &Basis, swept: &Swept, wanted: impl Fn(&Question) -> bool) -> Vec<Asked> {
    let section = Some(swept.section);
    let mut governing: Vec<(&'static Question, Option<Worst>)> =
        of(Scope::Situation, wanted).map(|question| (question, None)).collect();
    if governing.is_empty() {
        return Vec::new();
    }
    let mut dragged = Dragged::default();
    for alike in &swept.with_same_pipe {
        let mut scenes: Vec<Scene> = Vec::with_capacity(alike.len());
        for place in alike {
            let situation = swept.situations[*place];
            let scene = scenes.first().map_or_else(|| Scene::new(basis, situation), |first| first.with_same_pipe(situation));
            scenes.push(scene);
        }
        dragged.ahead(&scenes);
        for (place, scene) in alike.iter().zip(&scenes) {
            for (question, slot) in &mut governing {
                keep_worse(slot, (question, section), (*place, scene));
            }
        }
        dragged.learn(&scenes);
    }
    governing.into_iter().filter_map(|(_, slot)| slot).map(|worst| worst.asked.standing_on(swept.read)).collect()
}

/// The answers to those questions of the rig as a whole that are wanted.
pub(crate) fn ask_rig(basis: &Basis, wanted: impl Fn(&Question) -> bool) -> Vec<Asked> {
    let Some(last) = basis.fit.well.sections.len().checked_sub(1) else { return Vec::new() };
    let (scene, read) = noted(|| Scene::new(basis, sweep::section_end(basis.fit, last)));
    of(Scope::Rig, wanted).map(|question| asked(question, None, &scene).standing_on(read)).collect()
}

/// The governing answer of one question in one section.
pub(crate) fn ask_one(basis: &Basis, question: &'static Question, section: Option<usize>) -> Option<Asked> {
    let last = basis.fit.well.sections.len().checked_sub(1)?;
    let index = section.unwrap_or(last);
    match question.scope {
        Scope::Rig => ask_rig(basis, |one| one.slug == question.slug).pop(),
        Scope::Section | Scope::Situation => {
            ask_section(basis, &Swept::new(basis.fit, index), |one| one.slug == question.slug).pop()
        }
    }
}

/// The worst answer to a question so far.
struct Worst {
    /// Place of its situation in the order in which the crew meets them.
    place: usize,
    /// Its word and its room.
    standing: (Verdict, f64),
    asked: Asked,
}

/// Asks a question of one more situation, and keeps the answer if it is the first or worse than the one kept; of equals that which
/// the crew meets first.
fn keep_worse(
    slot: &mut Option<Worst>,
    (question, section): (&'static Question, Option<usize>),
    (place, scene): (usize, &Scene),
) {
    let Some(kept) = slot else {
        let asked = asked(question, section, scene);
        *slot = Some(Worst { place, standing: asked.answer.standing(), asked });
        return;
    };
    // Few answers are kept: the others are not copied into place.
    let (answer, read) = noted(|| (question.ask)(scene, &mut Off));
    kept.asked.stands_on = kept.asked.stands_on | read;
    let standing = answer.standing();
    if by_standing(standing, kept.standing).then(place.cmp(&kept.place)).is_lt() {
        (kept.place, kept.standing) = (place, standing);
        (kept.asked.answer, kept.asked.situation) = (answer, scene.situation);
    }
}

fn asked(question: &'static Question, section: Option<usize>, scene: &Scene) -> Asked {
    let (answer, read) = noted(|| (question.ask)(scene, &mut Off));
    Asked { question, section, situation: scene.situation, answer, remedy: None, stands_on: read | scene.basis.read }
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
    for (place, situation) in candidates.into_iter().enumerate() {
        let section = (question.scope != Scope::Rig).then_some(situation.section);
        keep_worse(&mut slot, (question, section), (place, &scene(situation)));
    }
    let Worst { asked, .. } = slot?;
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

    /// Definition: what situations with the same pipe share, and what one leaves for the next, changes no answer to the last digit;
    /// of equal answers that counts which the crew meets first.
    #[test]
    fn law_situations_asked_together_answer_as_each_alone() {
        let asked_alone = |fit: &Fit, situation: Situation| -> Vec<Answer> {
            let basis = Basis::new(fit);
            of(Scope::Situation, |_| true).map(|question| (question.ask)(&Scene::new(&basis, situation), &mut Off)).collect()
        };
        for name in ["ostrick", "tolvane", "quellmere"] {
            let fit = crate::example(name);
            let review = Review::without_remedies(&fit);
            for section in 0..fit.well.sections.len() {
                let Swept { situations, with_same_pipe, .. } = Swept::new(&fit, section);
                assert!(with_same_pipe.len() < situations.len(), "some share their pipe");
                // Every eleventh, which is no multiple of the operations at one depth.
                for (place, situation) in situations.iter().enumerate().step_by(11) {
                    for (question, answer) in of(Scope::Situation, |_| true).zip(asked_alone(&fit, *situation)) {
                        let kept = review.find(question.slug, Some(section)).expect("each question is asked");
                        let there = situations.iter().position(|situation| *situation == kept.situation);
                        let order = kept.answer.rank(&answer).then(there.cmp(&Some(place)));
                        assert!(order.is_le(), "{name} {section} {} {situation:?}", question.slug);
                    }
                }
                let governing: Vec<&Asked> =
                    of(Scope::Situation, |_| true).filter_map(|question| review.find(question.slug, Some(section))).collect();
                for (place, asked) in governing.iter().enumerate() {
                    assert_eq!(
                        asked.answer,
                        asked_alone(&fit, asked.situation)[place],
                        "{name} {section} {}",
                        asked.question.slug
                    );
                }
            }
        }
    }
}
