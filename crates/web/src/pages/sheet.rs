//! The sheet: the weakest link first, then every question of every section, and beside it what the crew may turn.

use crate::Server;
use crate::ask::{Ask, Case, Links, Reply, Turning};
use crate::change::Changes;
use crate::frame::{Frame, list, unread};
use crate::pages::knobs;
use crate::shelf::Fitted;
use maud::{Markup, PreEscaped, html};
use rigwright_margins::{Answer, Asked, Question, Review, SYSTEMS, Scope, Verdict};
use rigwright_papers::{Subject, view};
use rigwright_units::show;
use std::collections::HashMap;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let mut case = ask.case();
    if knobs::leave_out_what_is_written(server, &mut case) {
        return Reply::go(case.url("/sheet", &[]));
    }
    let turning = ask.turning();
    let fitted = match server.shelf.fitted(&server.folder, &case, turning == Turning::Rest) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let bare = case.with(Changes::default());
    let before = match (!case.changes.is_empty()).then(|| server.shelf.fitted(&server.folder, &bare, false)) {
        Some(Ok(before)) => Some(before),
        _ => None,
    };
    let title = fitted.loaded.fit.well.name.clone();
    let body = body(ask, &case, &fitted, before.as_ref().map(|before| &*before.review), turning);
    Reply::page(Frame::of(&title, &case).page(server, ask, &body))
}

fn body(ask: &Ask, case: &Case, fitted: &Fitted, before: Option<&Review>, turning: Turning) -> Markup {
    let subject = fitted.subject(case, ask.units(), ask.as_of);
    let cells = Cells {
        subject: &subject,
        links: case.links(),
        now: by_question(subject.review),
        before: before.map(by_question).unwrap_or_default(),
    };
    html! {
        h1 { (subject.fit.well.name) " on " (subject.fit.rig.name) }
        section #weakest.weakest aria-live="polite" data-live { (weakest(&subject, case, turning)) }
        div.two {
            div {
                div #sheet data-live {
                    (table(&cells))
                    (rig(&cells))
                    (after(&subject))
                }
                @if turning == Turning::Rest { div #basis data-live { (basis(&subject)) } }
            }
            @if turning != Turning::Drag { (knobs::panel(case, fitted, "/sheet", &[])) }
        }
    }
}

fn weakest(subject: &Subject, case: &Case, turning: Turning) -> Markup {
    let unknown = subject.unknowns();
    html! {
        h2 { "Weakest link" }
        @match subject.review.weakest() {
            Some(weakest) => {
                p.sentence {
                    a href=(address(&case.links(), weakest)) { (weakest.question.title) }
                    ", " (section_name(subject, weakest)) ": "
                    strong { (weakest.verdict().word()) }
                    ", " (subject.moment_words(weakest)) "."
                }
                @if let Some(judged) = weakest.answer.judged() {
                    p { (subject.demand_words(weakest, judged)) " — " (subject.left_words(weakest, judged)) "." }
                }
                @if matches!(weakest.verdict(), Verdict::Short | Verdict::Thin) {
                    @if turning == Turning::Rest { (mend(subject, case, weakest)) } @else { p.mend { "To mend it: looking…" } }
                }
            }
            None => { p.sentence { "No question could be judged." } }
        }
        @if !unknown.is_empty() {
            p { "And unknown, for want of "
                @for (index, (entry, needing)) in unknown.iter().enumerate() {
                    @if index > 0 { ", " }
                    code { (entry) } " (" (needing.len()) ")"
                }
                ": " a href=(case.url("/inputs", &[])) { "give them" } "."
            }
        }
        p.faint { (subject.tally()) }
        @if !subject.cautions.is_empty() { details { summary { (counted(subject.cautions.len())) } (list(subject.cautions)) } }
    }
}

/// What would mend an answer, with a way to try it.
pub(crate) fn mend(subject: &Subject, case: &Case, asked: &Asked) -> Markup {
    let tried = asked.remedy.as_ref().and_then(|remedy| knobs::with_remedy(case, subject, remedy));
    html! {
        p.mend {
            "To mend it: " (subject.remedy_words(asked)) "."
            @if let Some(tried) = tried { " " a href=(tried.url("/sheet", &[])) { "Try it as a what-if" } }
        }
    }
}

pub(crate) fn section_name<'a>(subject: &'a Subject, asked: &Asked) -> &'a str {
    asked.section.and_then(|section| subject.fit.well.sections.get(section)).map_or("the rig", |section| &section.name)
}

/// The address of an answer.
fn address(links: &Links, asked: &Asked) -> PreEscaped<String> {
    let question = ("question", asked.question.slug);
    match asked.section {
        Some(section) => links.href("/answer", &[question, ("section", &section.to_string())]),
        None => links.href("/answer", &[question]),
    }
}

/// What the cells of the sheet are made of.
struct Cells<'a> {
    subject: &'a Subject<'a>,
    links: Links,
    now: ByQuestion<'a>,
    /// Of the review of the files, when this is a what-if.
    before: ByQuestion<'a>,
}

/// The answers to each question, by its slug.
type ByQuestion<'a> = HashMap<&'static str, &'a [Asked]>;

fn by_question(review: &Review) -> ByQuestion<'_> {
    // Those to one question follow each other.
    let together = review.answers.chunk_by(|a, b| std::ptr::eq(a.question, b.question));
    together.filter_map(|answers| Some((answers.first()?.question.slug, answers))).collect()
}

/// A row of the sheet: the answers to one question.
struct Row<'a> {
    now: &'a [Asked],
    before: &'a [Asked],
}

impl<'a> Cells<'a> {
    fn row(&self, question: &Question) -> Row<'a> {
        let of = |answers: &ByQuestion<'a>| answers.get(question.slug).copied().unwrap_or_default();
        Row { now: of(&self.now), before: of(&self.before) }
    }
}

fn table(cells: &Cells) -> Markup {
    let sections = &cells.subject.fit.well.sections;
    html! {
        div.scroll tabindex="0" role="region" aria-label="questions by hole section" {
            table.sheet {
                caption.quiet { "Every question of every hole section: how much of the limit is used, and the word for it" }
                thead { tr { th scope="col" { "question" } @for section in sections { th scope="col" { (section.name) } } } }
                @for system in SYSTEMS {
                    tbody {
                        tr.system { th colspan=(sections.len() + 1) scope="rowgroup" { (system.name) } }
                        @for question in system.questions().filter(|question| question.scope != Scope::Rig) {
                            @let row = cells.row(question);
                            tr {
                                th scope="row" { (question.title) }
                                @for section in 0..sections.len() { td { (cell(cells, &row, Some(section))) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Answers that belong to the rig as a whole.
fn rig(cells: &Cells) -> Markup {
    let of_rig: Vec<&Asked> = cells.subject.review.answers.iter().filter(|asked| asked.section.is_none()).collect();
    html! {
        @if !of_rig.is_empty() {
            table.sheet.rig {
                caption { "The rig as a whole" }
                tbody { @for asked in of_rig {
                    tr {
                        th scope="row" { (asked.question.title) }
                        td { (cell(cells, &cells.row(asked.question), None)) }
                    }
                } }
            }
        }
    }
}

fn in_section(answers: &[Asked], section: Option<usize>) -> Option<&Asked> {
    answers.iter().find(|asked| asked.section == section)
}

fn cell(cells: &Cells, row: &Row, section: Option<usize>) -> Markup {
    let subject = cells.subject;
    let Some(asked) = in_section(row.now, section) else { return html! {} };
    let now = words(subject, asked);
    // Most answers of a what-if are those of the files, and need no second wording.
    let was = in_section(row.before, section).filter(|was| was.answer != asked.answer);
    let was = was.map(|was| words(subject, was)).filter(|was| *was != now);
    let short = asked.verdict() == Verdict::Short;
    html! {
        a.cell href=(address(&cells.links, asked))
            aria-label={ (asked.question.title) ", " (section_name(subject, asked)) ": " (now.0) " " (now.1) } class=[short.then_some("short")] {
            @if let Answer::Judged(judged) = &asked.answer { (bar(judged.share())) }
            span.figure { (now.0) }
            span.word { (now.1) }
            @if let Some(was) = &was { span.was { "was " (was.0) " " (was.1) } }
        }
    }
}

/// Figure and word of an answer.
pub(crate) fn words(subject: &Subject, asked: &Asked) -> (String, &'static str) {
    let word = asked.verdict().word();
    match &asked.answer {
        Answer::Judged(judged) => (view::percent(judged.share()), word),
        Answer::Told(figures) => {
            (figures.first().map(|figure| show(figure.value, figure.kind, subject.units)).unwrap_or_default(), word)
        }
        Answer::Missing(_) => ("?".to_owned(), word),
        Answer::DoesNotArise(_) => ("—".to_owned(), ""),
    }
}

/// The share of the limit that is used: a bar towards a stroke, and beyond it when the limit is passed.
pub(crate) fn bar(share: f64) -> Markup {
    const LIMIT: u8 = 80;
    let wide = if share.is_finite() { (share * f64::from(LIMIT)).clamp(0.0, 100.0) } else { 0.0 };
    html! {
        svg.bar viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true" focusable="false" {
            rect.used x="0" y="2" width=(format!("{wide:.1}")) height="6" {}
            line.limit x1=(LIMIT) x2=(LIMIT) y1="0" y2="10" {}
        }
    }
}

/// What stands below the table: what is short or thin.
fn after(subject: &Subject) -> Markup {
    let links = |verdict: Verdict| subject.review.of(verdict);
    html! {
        p.faint { "A cell: the bar runs to the stroke of the limit; the figure is the share of the limit that is used; the \
            word says whether the limit and the wanted reserve are kept. Open a cell for its working." }
        @for (verdict, title) in [(Verdict::Short, "Short: the limit is passed"), (Verdict::Thin, "Thin: the limit is kept, the wanted reserve is not")] {
            @let links = links(verdict);
            @if !links.is_empty() {
                h2 { (title) }
                ul { @for asked in links { li { (subject.link(asked)) } } }
            }
        }
    }
}

/// What the sheet rests on: what was assumed, how old the readings are, what is not looked at.
fn basis(subject: &Subject) -> Markup {
    html! {
        details {
            summary { "What this rests on" }
            h3 { "Values that nobody wrote" }
            ul { @for (path, value, source) in subject.assumptions() { li { code { (path) } " = " (value) span.faint { " — " (source) } } } }
            h3 { "What the methods take for granted" }
            ul { @for (text, titles) in subject.method_words() { li { (text) span.faint { " — " (titles.join(", ")) } } } }
            h3 { "Age of readings" }
            ul { @for (what, day, age) in subject.reading_ages() {
                li { (what) ", " (day) " (" (age) " days)" @if age > 14 { strong { " STALE?" } } }
            } }
        }
        @let not_yet = view::not_looked_at();
        @if !not_yet.is_empty() {
            details { summary { "Not looked at" }
                dl { @for (system, names) in not_yet { dt { (system) } dd { (names.join(", ")) } } }
            }
        }
    }
}

/// How many cautions there are, in words.
fn counted(cautions: usize) -> String {
    if cautions == 1 { "1 caution on the files".to_owned() } else { format!("{cautions} cautions on the files") }
}
