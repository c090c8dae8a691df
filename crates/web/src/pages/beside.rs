//! Several what-ifs side by side: for each question the worst answer of each.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::change::Changes;
use crate::frame::{Frame, unread};
use crate::pages::sheet::words;
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_margins::{Asked, questions};

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    let bare = Case { changes: Changes::default(), ..case.clone() };
    let mut cases = vec![bare.clone()];
    for changes in case.kept.iter().chain((!case.changes.is_empty()).then_some(&case.changes)) {
        let next = bare.with(changes.clone());
        if !cases.contains(&next) {
            cases.push(next);
        }
    }
    let mut columns: Vec<(Case, Fitted)> = Vec::new();
    for next in cases {
        match server.shelf.fitted(&server.folder, &next, false) {
            Ok(fitted) => columns.push((next, fitted)),
            Err(why) => return unread(server, ask, &next, &why),
        }
    }
    let body = html! {
        h1 { "Side by side" }
        p.faint { "For each question the worst answer of all sections. A row in bold differs between the columns." }
        div.scroll tabindex="0" role="region" aria-label="what-ifs side by side" { (table(ask, &columns)) }
        p.acts { a href=(bare.url("/sheet", &[])) { "Back to the sheet" } }
    };
    Reply::page(Frame::of("Side by side", &case).page(server, ask, &body))
}

fn table(ask: &Ask, columns: &[(Case, Fitted)]) -> Markup {
    let worst = |fitted: &Fitted, slug: &str| -> Option<Asked> {
        fitted.review.answers.iter().filter(|asked| asked.question.slug == slug).min_by(|a, b| a.answer.rank(&b.answer)).cloned()
    };
    html! {
        table.sheet.beside {
            thead { tr {
                th scope="col" { "question" }
                @for (index, (case, _)) in columns.iter().enumerate() {
                    th scope="col" {
                        @if index == 0 { "the file" } @else { "WHAT-IF " (index) }
                        @for (path, value) in case.changes.iter() { div.small { code { (path) } " = " (value) } }
                        div.acts {
                            a href=(case.url("/sheet", &[])) aria-label={ "open column " (index) } { "open" }
                            @if index > 0 { a href=(dropped(case).url("/beside", &[])) aria-label={ "drop column " (index) } { "drop" } }
                        }
                    }
                }
            } }
            tbody {
                @for question in questions() {
                    @let cells: Vec<(String, &str)> = columns.iter().map(|(case, fitted)| {
                        let subject = fitted.subject(case, ask.units(), ask.as_of);
                        worst(fitted, question.slug).map_or_else(|| (String::new(), ""), |asked| words(&subject, &asked))
                    }).collect();
                    tr class=[cells.iter().any(|cell| *cell != cells[0]).then_some("differs")] {
                        th scope="row" { (question.title) }
                        @for (figure, word) in &cells { td { span.figure { (figure) } " " span.word { (word) } } }
                    }
                }
            }
        }
    }
}

/// The same without this column.
fn dropped(case: &Case) -> Case {
    let kept = case.kept.iter().filter(|kept| **kept != case.changes).cloned().collect();
    Case { well: case.well.clone(), changes: Changes::default(), kept }
}
