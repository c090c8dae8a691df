//! The course of one question over depth, for figures: its answer in every situation of a section.
//!
//! The governing answer of a review is one of these.

use crate::{Answer, Basis, Question, Scene, Scope, sweep};
use rigwright_physics::Off;
use rigwright_well::{Fit, Situation};

/// The answers of a question in every situation of a section in which it arises, in the order of the sweep. Empty for a
/// question that is not asked by situation.
pub fn course(fit: &Fit, question: &Question, section: usize) -> Vec<(Situation, Answer)> {
    if question.scope != Scope::Situation || section >= fit.well.sections.len() {
        return Vec::new();
    }
    let basis = Basis::new(fit);
    let ask = |situation: Situation| (situation, (question.ask)(&Scene::new(&basis, situation), &mut Off));
    sweep::in_section(fit, section)
        .into_iter()
        .map(ask)
        .filter(|(_, answer)| !matches!(answer, Answer::DoesNotArise(_)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Review, example, questions};

    /// Definition: the governing answer is the worst of its course.
    #[test]
    fn law_the_governing_answer_is_the_worst_of_its_course() {
        let fit = example("ostrick");
        let review = Review::without_remedies(&fit);
        let mut looked_at = 0;
        for question in questions().filter(|question| question.scope == Scope::Situation) {
            for section in 0..fit.well.sections.len() {
                let course = course(&fit, question, section);
                let worst = course.iter().map(|(_, answer)| answer).min_by(|a, b| a.rank(b));
                let governing = &review.find(question.slug, Some(section)).expect("every question is answered").answer;
                if let Some(worst) = worst {
                    assert!(worst.rank(governing).is_eq(), "{}", question.slug);
                    looked_at += 1;
                }
            }
        }
        assert!(looked_at > 20, "{looked_at}");
    }
}
