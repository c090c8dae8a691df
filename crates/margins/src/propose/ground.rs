//! The fit that a step stands on, with its review; and the few ways in which steps look at it.

use super::{Change, Outcome, Setting, Step, Turn};
use crate::review::Review;
use crate::{Answer, Basis, Question, Scene, Verdict, question, sweep};
use rigwright_physics::Off;
use rigwright_well::{Fit, Operation, Situation};
use rigwright_wellfile::{Knob, knob};

/// A fit with its review.
pub(super) struct Ground {
    /// What the next step stands on.
    pub(super) fit: Fit,
    /// Its review, without remedies.
    pub(super) review: Review,
}

impl Ground {
    pub(super) fn new(fit: Fit) -> Ground {
        let review = Review::without_remedies(&fit);
        Ground { fit, review }
    }

    /// The worst verdict of all judged or unknown answers.
    pub(super) fn worst(&self) -> Verdict {
        self.review.answers.iter().map(crate::Asked::verdict).min().unwrap_or(Verdict::DoesNotArise)
    }

    /// Reviews a step that others do not stand on.
    pub(super) fn beside(&self, (mut step, turned): (Step, Option<Fit>)) -> Step {
        if let Some(turned) = turned {
            (step.improves, step.spoils) = changes(&self.review, &Review::without_remedies(&turned));
        }
        step
    }

    /// Reviews a step; the following steps stand on it, unless it spoils more than it mends.
    pub(super) fn stand_on(&mut self, (mut step, turned): (Step, Option<Fit>)) -> Step {
        let Some(fit) = turned else { return step };
        let review = Review::without_remedies(&fit);
        (step.improves, step.spoils) = changes(&self.review, &review);
        let to_short = step.spoils.iter().filter(|change| change.after == Verdict::Short).count();
        let from_short = step.improves.iter().filter(|change| change.before == Verdict::Short).count();
        step.taken = to_short == 0 || to_short < from_short;
        if step.taken {
            *self = Ground { fit, review };
        }
        step
    }

    /// The fit with turns of knobs of the entry table.
    pub(super) fn turned(&self, turns: &[(&'static Knob, f64)], section: usize) -> (Fit, Vec<Turn>) {
        let mut fit = self.fit.clone();
        let mut list = Vec::with_capacity(turns.len());
        for (knob, to) in turns {
            let Some(from) = (knob.get)(&self.fit, section) else { continue };
            (knob.set)(&mut fit, section, *to);
            list.push(Turn {
                knob: knob.name,
                kind: knob.kind,
                section: knob.per_section.then_some(section),
                from: Setting::Value(from),
                to: Setting::Value(*to),
                ease: knob.ease,
            });
        }
        (fit, list)
    }
}

/// Answers whose verdict changes: better ones, worse ones. An answer that is short and gets shorter is worse too.
pub(super) fn changes(before: &Review, after: &Review) -> (Vec<Change>, Vec<Change>) {
    let (mut better, mut worse) = (Vec::new(), Vec::new());
    for asked in &after.answers {
        let Some(was) = before.find(asked.question.slug, asked.section) else { continue };
        let change = Change { slug: asked.question.slug, section: asked.section, before: was.verdict(), after: asked.verdict() };
        let shorter = change.after == Verdict::Short && asked.answer.rank(&was.answer).is_lt();
        if shorter || (change.after < change.before && change.after <= Verdict::Thin) {
            worse.push(change);
        } else if change.before < change.after && change.before <= Verdict::Thin {
            better.push(change);
        }
    }
    (better, worse)
}

/// The word for a room.
pub(super) fn verdict(room: f64) -> Verdict {
    if room >= 1.0 {
        Verdict::Holds
    } else if room >= 0.0 {
        Verdict::Thin
    } else {
        Verdict::Short
    }
}

/// The word for a room, where some entries miss that others hang on: those must not look as if they held.
pub(super) fn word(room: f64, missing: &[&'static str]) -> Verdict {
    if missing.is_empty() { verdict(room) } else { verdict(room).min(Verdict::Unknown) }
}

/// Questions by slug; those that the catalogue does not know are left out.
pub(super) fn asking(slugs: &[&str]) -> Vec<&'static Question> {
    slugs.iter().filter_map(|slug| question(slug)).collect()
}

/// What a look at some situations came to.
#[derive(Clone, Debug, Default)]
pub(super) struct Look {
    /// Smallest room; `None` where nothing was judged. [reserves]
    pub(super) room: Option<f64>,
    /// Entries that miss.
    pub(super) missing: Vec<&'static str>,
}

impl Look {
    fn take(&mut self, answer: &Answer) {
        match answer {
            Answer::Judged(judged) => self.room = Some(self.room.map_or(judged.room(), |room| room.min(judged.room()))),
            Answer::Missing(entries) => {
                let new: Vec<_> = entries.iter().copied().filter(|entry| !self.missing.contains(entry)).collect();
                self.missing.extend(new);
            }
            Answer::Told(_) | Answer::DoesNotArise(_) => {}
        }
    }

    /// Another look added.
    pub(super) fn and(mut self, other: Look) -> Look {
        self.room = match (self.room, other.room) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
        self.missing.extend(other.missing);
        self
    }

    /// Whether it cannot be said to be kept, since something could not be judged. What is short is short all the same.
    pub(super) fn unknown(&self) -> bool {
        !self.missing.is_empty() && self.room.is_none_or(|room| room >= 0.0)
    }

    /// The word for it.
    pub(super) fn word(&self) -> Verdict {
        word(self.reached(), &self.missing)
    }

    /// Room for a comparison: without a judgement nothing stands in the way.
    pub(super) fn reached(&self) -> f64 {
        self.room.unwrap_or(f64::INFINITY)
    }
}

/// The worst of some questions over the situations of some operations of a section.
pub(super) fn look(fit: &Fit, section: usize, questions: &[&'static Question], operations: &[Operation]) -> Look {
    let basis = Basis::new(fit);
    let mut look = Look::default();
    for situation in sweep::in_section(fit, section).into_iter().filter(|one| operations.contains(&one.operation)) {
        let scene = Scene::new(&basis, situation);
        for question in questions {
            look.take(&(question.ask)(&scene, &mut Off));
        }
    }
    look
}

/// What questions of a section or of the rig come to at the end of a section.
pub(super) fn look_at_end(fit: &Fit, section: usize, questions: &[&'static Question]) -> Look {
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::section_end(fit, section));
    let mut look = Look::default();
    for question in questions {
        look.take(&(question.ask)(&scene, &mut Off));
    }
    look
}

/// The governing answer of one question over the situations of one operation.
pub(super) fn governing(fit: &Fit, section: usize, slug: &str, operation: Operation) -> Option<(Situation, Answer)> {
    let question = question(slug)?;
    let basis = Basis::new(fit);
    let situations = sweep::in_section(fit, section).into_iter().filter(|one| one.operation == operation);
    let answers = situations.map(|situation| (situation, (question.ask)(&Scene::new(&basis, situation), &mut Off)));
    answers.reduce(|worst, next| if next.1.rank(&worst.1).is_lt() { next } else { worst })
}

/// The knob of a name, which the entry table is known to have.
pub(super) fn the(name: &str) -> Option<&'static Knob> {
    knob(name)
}

/// The outcome of a look that found nothing better than what stands.
pub(super) fn as_it_is(look: &Look) -> Outcome {
    match look.room {
        _ if look.unknown() => Outcome::Unknown(look.missing.clone()),
        Some(room) => Outcome::AsItIs(verdict(room)),
        None => Outcome::AsItIs(Verdict::DoesNotArise),
    }
}
