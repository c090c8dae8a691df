//! The list of questions.

use super::{FORMAT, print};
use rigwright_margins::{Question, Scope};
use serde::Serialize;

/// Every question of the catalogue.
pub fn questions() -> String {
    print(&Document { format: FORMAT, questions: rigwright_margins::questions().map(question).collect() })
}

#[derive(Serialize)]
struct Document {
    format: u32,
    questions: Vec<QuestionJson>,
}

#[derive(Serialize)]
struct QuestionJson {
    question: &'static str,
    system: &'static str,
    title: &'static str,
    asks: &'static str,
    scope: &'static str,
    knobs: &'static [&'static str],
}

fn question(question: &Question) -> QuestionJson {
    QuestionJson {
        question: question.slug,
        system: question.system(),
        title: question.title,
        asks: question.asks,
        scope: match question.scope {
            Scope::Situation => "situation",
            Scope::Section => "section",
            Scope::Rig => "rig",
        },
        knobs: question.knobs,
    }
}
