//! One answer opened: what governs, its course over depth, what would mend it, and the whole working.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::frame::{Frame, sorry, unread};
use crate::pages::{picture, sheet, working};
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_margins::{Answer, Asked, Verdict, course, question};
use rigwright_papers::figure::{self, Figure};
use rigwright_papers::{Subject, view};
use rigwright_units::show;
use rigwright_wellfile::entry;

/// Finds the answer that an address names and makes a reply of it.
fn with(server: &Server, ask: &Ask, make: impl FnOnce(&Case, &Fitted, &Asked) -> Reply) -> Reply {
    let case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, true) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let section = ask.get("section").and_then(|section| section.parse::<usize>().ok());
    let asked = question(ask.get("question").unwrap_or_default())
        .and_then(|question| fitted.review.find(question.slug, section).cloned());
    match asked {
        Some(asked) => make(&case, &fitted, &asked),
        None => sorry(server, ask, 404, "No such answer", "The well has no such section, or there is no such question."),
    }
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    with(server, ask, |case, fitted, asked| {
        let subject = fitted.subject(case, ask.units(), ask.as_of);
        let title = format!("{}, {}", asked.question.title, sheet::section_name(&subject, asked));
        let frame = Frame { title: &title, case: Some(case), control: asked.question.system() == "control" };
        Reply::page(frame.page(server, ask, &body(ask, case, &subject, asked)))
    })
}

pub(crate) fn csv(server: &Server, ask: &Ask) -> Reply {
    with(server, ask, |case, fitted, asked| match drawn(&fitted.subject(case, ask.units(), ask.as_of), asked) {
        Some(figure) => picture::saved(ask, &figure),
        None => sorry(server, ask, 404, "No course", "This question is not asked over depth."),
    })
}

/// The course over depth, where there is one to draw.
fn drawn(subject: &Subject, asked: &Asked) -> Option<Figure> {
    let section = asked.section?;
    let rows = course(subject.fit, asked.question, section);
    let figure = figure::course(subject.fit, asked.question, &rows, &asked.situation, subject.units);
    (!figure.series.is_empty()).then_some(figure)
}

fn body(ask: &Ask, case: &Case, subject: &Subject, asked: &Asked) -> Markup {
    let working = asked.working(subject.fit);
    let section = asked.section.map(|section| section.to_string());
    let mut more = vec![("question", asked.question.slug)];
    more.extend(section.as_deref().map(|section| ("section", section)));
    html! {
        p.back { a href=(case.url("/sheet", &[])) { "← the sheet" } }
        h1 { (asked.question.title) ", " (sheet::section_name(subject, asked)) }
        p { (asked.question.asks) }
        section.weakest aria-label="answer" { (answer(subject, asked)) (mended(subject, case, asked)) }
        @if let Some(figure) = drawn(subject, asked) {
            h2 { "Over depth" }
            (picture::picture(ask, case, &figure, &picture::Shown { path: "/answer", table: "/course.csv", more: &more }))
        }
        h2 { "Working" }
        @for assumes in asked.question.assumes { p.faint { "Assumed: " (assumes) } }
        (working::working(&working, subject.units))
        p.result { "So: " (view::conclusion_words(asked, subject.units)) "." }
    }
}

fn answer(subject: &Subject, asked: &Asked) -> Markup {
    let (figure, word) = sheet::words(subject, asked);
    html! {
        @match &asked.answer {
            Answer::Judged(judged) => {
                p.big { (sheet::bar(judged.share())) " " b { (figure) } " " strong { (word) } }
                p { (subject.demand_words(asked, judged)) " — " (subject.left_words(asked, judged)) "." }
            }
            Answer::Told(figures) => {
                dl.told { @for figure in figures { div { dt { (figure.name) } dd { b { (show(figure.value, figure.kind, subject.units)) } } } } }
            }
            Answer::Missing(missing) => {
                p.big { strong { "unknown" } }
                p { "These are not in the files, and have no honest default:" }
                ul { @for path in missing {
                    li { code { (path) } @if let Some(entry) = entry(path) { ": " (entry.help) ", such as " code { (entry.key()) " = " (entry.written_example()) } } }
                } }
            }
            Answer::DoesNotArise(why) => { p { "The question does not arise: " (why) "." } }
        }
        p.faint { "The moment that governs: " (subject.moment_words(asked)) "." }
    }
}

/// What the crew may turn about it.
fn mended(subject: &Subject, case: &Case, asked: &Asked) -> Markup {
    html! {
        @if matches!(asked.verdict(), Verdict::Short | Verdict::Thin) {
            (sheet::mend(subject, case, asked))
        } @else if !asked.question.knobs.is_empty() {
            p.faint { "What bears on it: " (asked.question.knobs.join(", ")) "." }
        }
    }
}
