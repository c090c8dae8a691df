//! Several rigs side by side for one well: which fits, and where each falls short.

use crate::grid::{self, Row};
use crate::sheet::{BELOW, caution, link, remedy, tally, unknown_entries};
use crate::subject::{Subject, counted};
use crate::text::{Span, Style, Text, WIDTH, width};
use rigwright_margins::{Answer, Asked, Question, Review, Verdict, questions};

/// How many answers of a rig are told in words.
const MOST: usize = 6;
const HANG: usize = 14;

/// The rigs of these subjects, all held against one well. Empty without a subject.
pub fn side_by_side(subjects: &[Subject]) -> Text {
    let mut text = Text::default();
    let Some(first) = subjects.first() else { return text };
    head(&mut text, first, subjects.len());
    for subject in subjects {
        let style = if fits(subject) { Style::Plain } else { Style::Strong };
        let name = format!("{}: {}", subject.fit.rig.name, standing(subject));
        text.line([Span::new(name, style)]);
        text.hanging(HANG, "  weakest".into(), &subject.review.weakest().map_or_else(none, |weakest| link(subject, weakest)));
        text.hanging(HANG, "  answers".into(), &tally(subject));
    }
    text.blank();
    text.plain("Worst answer of all hole sections:");
    let columns: Vec<&str> = subjects.iter().map(|subject| subject.fit.rig.name.as_str()).collect();
    let row = |question: &'static Question| Row {
        system: question.system(),
        title: question.title,
        answers: subjects.iter().map(|subject| worst(subject.review, question.slug).map(|asked| &asked.answer)).collect(),
    };
    let rows: Vec<Row> = questions().map(row).collect();
    grid::grid(&mut text, &columns, &rows, first.units);
    text.blank();
    for subject in subjects {
        falls_short(&mut text, subject);
    }
    caution(&mut text);
    text
}

fn head(text: &mut Text, first: &Subject, rigs: usize) {
    let name = format!("{} held against {}", first.fit.well.name, counted(rigs, "rig"));
    let moment = format!("as of {}", first.as_of());
    let gap = WIDTH.saturating_sub(width(&name) + width(&moment)).max(2);
    text.line([name.into(), " ".repeat(gap).into(), Span::new(moment, Style::Faint)]);
    text.rule();
}

fn none() -> String {
    "no question could be judged".to_owned()
}

/// Whether nothing is short.
fn fits(subject: &Subject) -> bool {
    subject.count(Verdict::Short) == 0
}

fn standing(subject: &Subject) -> String {
    let (short, unknown) = (subject.count(Verdict::Short), subject.count(Verdict::Unknown));
    match (short, unknown) {
        (0, 0) => "fits".to_owned(),
        (0, _) => format!("fits as far as known, {} unknown", counted(unknown, "answer")),
        _ => format!("falls short in {}", counted(short, "answer")),
    }
}

/// The worst answer to a question over all sections, the first of equals.
fn worst<'a>(review: &'a Review, slug: &str) -> Option<&'a Asked> {
    let of_question = review.answers.iter().filter(|asked| asked.question.slug == slug);
    of_question.reduce(|worst, next| if next.answer.rank(&worst.answer).is_lt() { next } else { worst })
}

fn falls_short(text: &mut Text, subject: &Subject) {
    let short = subject.review.of(Verdict::Short);
    let unknown = unknown_entries(subject);
    if short.is_empty() && unknown.is_empty() {
        return;
    }
    text.heading(&subject.fit.rig.name);
    for asked in short.iter().take(MOST) {
        text.paragraph(2, Style::Plain, &link(subject, asked));
        if matches!(asked.answer, Answer::Judged(_)) {
            text.hanging(BELOW, "      to mend".into(), &remedy(subject, asked));
        }
    }
    if short.len() > MOST {
        text.plain(format!("  and {} more short", short.len() - MOST));
    }
    if !unknown.is_empty() {
        let names: Vec<&str> = unknown.iter().map(|(path, _)| *path).collect();
        text.hanging(HANG, "  unknown".into(), &format!("for want of {}", names.join(", ")));
    }
    text.blank();
}
