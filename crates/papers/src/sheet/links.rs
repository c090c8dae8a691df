//! The weak links in words: the weakest with its working in short, what is short or thin with its remedy, what is
//! unknown with the inputs that it needs.

use super::{HANG, link};
use crate::subject::{Subject, ease};
use crate::text::{Style, Text};
use crate::working;
use rigwright_margins::{Answer, Asked, Verdict};
use rigwright_wellfile::entry;

/// Column in which the words about an answer begin below it.
pub(crate) const BELOW: usize = 16;

/// How many lines of working stand on the sheet.
const SHORT: usize = 6;

/// The last steps of the working of the weakest link.
pub(super) fn weakest_in_short(text: &mut Text, subject: &Subject) {
    let Some(weakest) = subject.review.weakest() else { return };
    text.heading("the weakest link in short");
    text.paragraph(0, Style::Plain, weakest.question.asks);
    let working = weakest.working(subject.fit);
    let lines = working::in_short(&working, subject.units);
    let from = lines.len().saturating_sub(SHORT);
    if from > 0 {
        text.paragraph(2, Style::Faint, &format!("... {from} steps before"));
    }
    for line in &lines[from..] {
        text.paragraph(4, Style::Plain, line);
    }
    text.paragraph(4, Style::Plain, &working::conclusion(weakest, subject.units));
    text.hanging(HANG, "in full".into(), &subject.explain_command(weakest));
    text.blank();
}

/// Answers of a verdict, each with its remedy.
pub(super) fn mended(text: &mut Text, subject: &Subject, verdict: Verdict) {
    let answers = subject.review.of(verdict);
    if answers.is_empty() {
        return;
    }
    text.heading(match verdict {
        Verdict::Short => "short: the limit is passed",
        _ => "thin: the limit is kept, the wanted reserve is not",
    });
    for asked in answers {
        text.paragraph(2, Style::Plain, &link(subject, asked));
        text.hanging(BELOW, "      to mend".into(), &remedy(subject, asked));
    }
    text.blank();
}

/// What mends an answer, what that makes of it and what it spoils.
pub(crate) fn remedy(subject: &Subject, asked: &Asked) -> String {
    match &asked.remedy {
        Some(remedy) => format!(
            "{} ({}): {}; {}",
            subject.turn(remedy),
            ease(remedy.knob.ease),
            match remedy.mended {
                Verdict::Holds => "then holds",
                _ => "then thin",
            },
            subject.spoils(&remedy.spoils)
        ),
        None if asked.question.knobs.is_empty() => "nothing that the crew may choose bears on it".to_owned(),
        None => format!("no turn of one thing alone mends it; tried {}", asked.question.knobs.join(", ")),
    }
}

/// The entries that answers miss, each with the answers that need it, in the order of the catalogue.
pub(crate) fn unknown_entries<'a>(subject: &Subject<'a>) -> Vec<(&'static str, Vec<&'a Asked>)> {
    let mut entries: Vec<(&'static str, Vec<&Asked>)> = Vec::new();
    for asked in &subject.review.answers {
        let Answer::Missing(missing) = &asked.answer else { continue };
        for path in missing {
            match entries.iter_mut().find(|(known, _)| known == path) {
                Some((_, needing)) => needing.push(asked),
                None => entries.push((path, vec![asked])),
            }
        }
    }
    entries
}

pub(super) fn unknown(text: &mut Text, subject: &Subject) {
    let entries = unknown_entries(subject);
    if entries.is_empty() {
        return;
    }
    text.heading("unknown: an input is missing");
    for (path, needing) in entries {
        let help = entry(path)
            .map_or_else(String::new, |entry| format!(": {}, such as {} = {}", entry.help, entry.key(), entry.example));
        text.paragraph(2, Style::Plain, &format!("{path}{help}"));
        text.hanging(BELOW, "      needed by".into(), &needed_by(subject, &needing));
    }
    text.blank();
}

/// "casing burst (17 1/2 in, 12 1/4 in), kill pressure (8 1/2 in)".
fn needed_by(subject: &Subject, needing: &[&Asked]) -> String {
    let mut questions: Vec<(&str, Vec<&str>)> = Vec::new();
    for asked in needing {
        let section = subject.section(asked.section);
        match questions.iter_mut().find(|(title, _)| *title == asked.question.title) {
            Some((_, sections)) => sections.push(section),
            None => questions.push((asked.question.title, vec![section])),
        }
    }
    let questions = questions.iter().map(|(title, sections)| format!("{title} ({})", sections.join(", ")));
    questions.collect::<Vec<_>>().join(", ")
}
