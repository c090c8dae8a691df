//! Tests and drills that fall due: by the jurisdiction that the well names, else by that of the reader's settings.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::frame::{Frame, unread};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use maud::{Markup, html};
use rigwright_margins::due::{DueList, due_by, jurisdiction};
use rigwright_papers::view;
use rigwright_well::Fit;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => {
            let frame = Frame { title: "Tests and drills due", case: Some(&case), control: true };
            Reply::page(frame.page(server, ask, &body(ask, &case, &fitted.loaded.fit)))
        }
        Err(why) => unread(server, ask, &case, &why),
    }
}

fn body(ask: &Ask, case: &Case, fit: &Fit) -> Markup {
    let day = TimeZone::UTC.to_datetime(ask.as_of).date();
    let named = fit.well.jurisdiction.as_deref();
    // A well that names one keeps it, even if its rules are not known: others' rules are not put in their place.
    let chosen = match named {
        Some(_) => None,
        None => ask.cookie("jurisdiction").and_then(jurisdiction),
    };
    let list = due_by(fit, chosen.or_else(|| named.and_then(jurisdiction)), day);
    let back = case.url("/due", &[]);
    let settings = format!("/settings?{}", form_urlencoded::Serializer::new(String::new()).append_pair("back", &back).finish());
    html! {
        h1 { "Tests and drills due on " (day) }
        p {
            "Jurisdiction: "
            b { (list.jurisdiction.map(|one| one.name).or(named).unwrap_or("none is named")) }
            @if chosen.is_some() { ", from " a href=(settings) { "your settings" } ": the well file names none, and the paper goes by the file" }
            "."
        }
        @if list.jurisdiction.is_none() {
            p { strong { (view::NOTHING_DUE) } }
            @if named.is_none() { p { a href=(settings) { "Choose one in the settings" } ", or name it in the file as " code { "jurisdiction" } "." } }
        }
        @if !list.due.is_empty() { (rules(&list)) }
        @if !list.beside.is_empty() {
            h2 { "On record, with no known rule beside it" }
            ul { @for (what, date) in &list.beside { li { (what) ": " (date) } } }
        }
        p.acts {
            a href=(case.url("/edit", &[])) { "Write down what was done" }
            a href=(case.url("/paper", &[("paper", "tests-due")])) { "As a paper" }
        }
        p.faint { (view::DUE_CAUTION) }
    }
}

fn rules(list: &DueList) -> Markup {
    let day = |date: Option<Date>| date.map_or_else(|| "not on record".to_owned(), |date| date.to_string());
    html! {
        div.scroll tabindex="0" role="region" aria-label="tests and drills due" {
            table.papers {
                thead { tr { @for head in ["what", "stands", "last", "due by", "every", "passed when", "written in"] { th scope="col" { (head) } } } }
                tbody { @for due in &list.due {
                    @let (words, strong) = view::standing_words(due.standing);
                    tr {
                        th scope="row" { (due.rule.title) }
                        td { @if strong { strong { (words) } } @else { (words) } }
                        td { (day(due.last)) }
                        td { (day(due.next)) }
                        td { (due.rule.days) " days" }
                        td { (due.rule.criterion) }
                        td.faint { (due.rule.citation) " (" (due.rule.read) ")" }
                    }
                } }
            }
        }
    }
}
