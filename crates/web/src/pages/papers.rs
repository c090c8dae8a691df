//! The papers of a well: to read here, and to save as PDF or as a workbook.
//!
//! A paper is signed, so it is made of the files as they are on disk and never of a what-if.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::change::Changes;
use crate::frame::{Frame, sorry, unread};
use crate::pages::{kill, paper, picture, record};
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_margins::kill_sheet::kill_sheet;
use rigwright_papers::paper::{Desk, PAPERS, Paper, PaperKind, blank_kill_sheet, fingerprint};
use rigwright_papers::remark;
use rigwright_physics::Working;
use rigwright_press::{NO_TYPESETTER, PressError, Size, TYPESETTER, Templates, WORKBOOKS, desk_book, pdf, workbook};
use rigwright_units::System;
use std::fmt::Write;

pub(crate) use rigwright_papers::paper::KILL_SHEET;

const BLANK: &str = "blank, for a drill; the kill desk makes one of readings";

/// The address of a paper.
pub(crate) fn address(case: &Case, path: &str, slug: &str, more: &[(&str, &str)]) -> String {
    let mut all = vec![("paper", slug)];
    all.extend(more);
    case.url(path, &all)
}

/// The list.
pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let body = html! {
        h1 { "Papers" }
        @if case.changes.is_empty() { (list(server, ask, &case, &fitted)) } @else { (unwritten(&case)) }
    };
    Reply::page(Frame::of("Papers", &case).page(server, ask, &body))
}

/// Papers are signed: a what-if makes none.
fn unwritten(case: &Case) -> Markup {
    html! {
        p role="alert" { "Papers are made of the files, and these values are not in them. Write the what-if to the file first, or drop it." }
        p.acts {
            a href=(case.url("/write", &[])) { "Write to the file…" }
            a href=(case.with(Changes::default()).url("/papers", &[])) { "Papers of the files as they are" }
        }
    }
}

/// How papers are wished for: what the address of each holds besides its name.
fn wishes(ask: &Ask) -> Vec<(&str, &str)> {
    ["size", "beside"].into_iter().filter_map(|key| Some((key, ask.get(key).filter(|value| !value.is_empty())?))).collect()
}

fn list(server: &Server, ask: &Ask, case: &Case, fitted: &Fitted) -> Markup {
    let sections = &fitted.loaded.fit.well.sections;
    let size = size(ask).unwrap_or_default();
    let wishes = wishes(ask);
    html! {
        p { "What the crew signs, posts and carries. Each says what it rests on and how old that is, and bears a fingerprint of these files." }
        form.range method="get" action="/papers" {
            (picture::hidden(case, &[]))
            label { "sheet " select name="size" {
                @for one in [Size::A4, Size::Letter] { option value=(one.name()) selected[one == size] { (one.name()) } }
            } }
            label { " second units " select name="beside" {
                option value="" { "none" }
                @for system in System::ALL.iter().filter(|system| **system != ask.units()) {
                    option value=(system.name()) selected[ask.get("beside") == Some(system.name())] { (system.name()) }
                }
            } }
            button { "Take these" }
        }
        @if !TYPESETTER { p.faint { "PDF: " (NO_TYPESETTER) "." } }
        div.scroll tabindex="0" role="region" aria-label="papers" {
            table.papers.kinds {
                thead { tr { th scope="col" { "paper" } th scope="col" { "what it is for" } th scope="col" { "of" } th scope="col" { "to save" } } }
                tbody {
                    @for kind in PAPERS {
                        @if kind.of_section {
                            (by_section(case, fitted, &(0..sections.len()).collect::<Vec<_>>(), (kind.title, kind.slug, kind.about), &wishes))
                        } @else { (row(case, (kind.title, kind.slug), kind.about, "the well", &wishes)) }
                    }
                    @let shut_in = (0..sections.len()).filter(|index| fitted.loaded.fit.well.casing_above(*index).is_some());
                    (by_section(case, fitted, &shut_in.collect::<Vec<_>>(), ("Kill sheet", KILL_SHEET, BLANK), &wishes))
                }
            }
        }
        (record::forms(server, case, sections, &wishes))
    }
}

/// A row for each of some sections; the first names the paper.
fn by_section(
    case: &Case,
    fitted: &Fitted,
    sections: &[usize],
    (title, slug, about): (&str, &str, &str),
    wishes: &[(&str, &str)],
) -> Markup {
    let well = &fitted.loaded.fit.well;
    html! {
        @for (row_index, (index, section)) in sections.iter().filter_map(|index| Some((index, well.sections.get(*index)?))).enumerate() {
            @let index_text = index.to_string();
            @let more: Vec<(&str, &str)> = wishes.iter().copied().chain([("section", &*index_text)]).collect();
            @let (title, about) = if row_index == 0 { (title, about) } else { ("", "") };
            (row(case, (title, slug), about, &section.name, &more))
        }
    }
}

fn row(case: &Case, (title, slug): (&str, &str), about: &str, of: &str, more: &[(&str, &str)]) -> Markup {
    html! {
        tr {
            th scope="row" { (title) }
            td.faint { (about) }
            td { a href=(address(case, "/paper", slug, more)) aria-label={ "read: " (slug) ", " (of) } { (of) } }
            td.acts { (saves(case, slug, more, of)) }
        }
    }
}

/// Ways to save a paper.
fn saves(case: &Case, slug: &str, more: &[(&str, &str)], of: &str) -> Markup {
    let readings = more.iter().any(|(key, _)| *key == "sidpp") || slug == record::LEAK_OFF_REPORT;
    html! {
        @if TYPESETTER { a href=(address(case, "/paper.pdf", slug, more)) aria-label={ "PDF: " (slug) ", " (of) } { "PDF" } }
        @if WORKBOOKS.contains(&slug) || readings {
            a href=(address(case, "/paper.xlsx", slug, more)) aria-label={ "workbook: " (slug) ", " (of) } { "workbook" }
        }
    }
}

/// The size of the sheet that is asked for; `None` for a word that is none.
fn size(ask: &Ask) -> Option<Size> {
    ask.get("size").map_or(Some(Size::default()), |size| size.parse().ok())
}

/// A paper with the desk that it was made at.
struct Made<'a> {
    case: &'a Case,
    desk: &'a Desk<'a>,
    paper: &'a Paper,
    /// The way to figures that are worked out from readings.
    working: Option<&'a Working>,
}

/// Makes the paper that an address names, and a reply of it.
fn with(server: &Server, ask: &Ask, reply: impl FnOnce(&Made) -> Reply) -> Reply {
    let case = ask.case();
    if !case.changes.is_empty() {
        let markup = Frame::of("Papers", &case).page(server, ask, &html! { h1 { "Papers" } (unwritten(&case)) });
        return Reply::Page { status: 409, markup };
    }
    let fitted = match server.shelf.fitted(&server.folder, &case, true) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let fit = &fitted.loaded.fit;
    let subject = fitted.subject(&case, ask.units(), ask.as_of);
    let print = fingerprint(&fitted.loaded.sources);
    let beside = ask.get("beside").and_then(|name| name.parse().ok()).filter(|beside| *beside != ask.units());
    let section = ask.get("section").map(|_| kill::section(ask, fit));
    let desk = Desk { subject: &subject, beside, fingerprint: &print, version: env!("CARGO_PKG_VERSION"), section };
    match make(server, ask, &desk) {
        Ok((paper, working)) => reply(&Made { case: &case, desk: &desk, paper: &paper, working: working.as_ref() }),
        Err(Unmade { status, title, words }) => sorry(server, ask, status, title, &words),
    }
}

/// Why there is no paper.
pub(crate) struct Unmade {
    pub(crate) status: u16,
    pub(crate) title: &'static str,
    pub(crate) words: String,
}

impl Unmade {
    /// What was sent cannot be used.
    pub(crate) fn wrong(title: &'static str, words: String) -> Unmade {
        Unmade { status: 422, title, words }
    }
}

/// The paper that an address names, with the way to its figures where that makes a workbook.
fn make(server: &Server, ask: &Ask, desk: &Desk) -> Result<(Paper, Option<Working>), Unmade> {
    let missing = |title, words: &str| Unmade { status: 404, title, words: words.to_owned() };
    let slug = ask.get("paper").unwrap_or_default();
    if let Some(record) = ask.get("record") {
        return record::make(server, desk, slug, record);
    }
    if let Some(kind) = PaperKind::find(slug) {
        return Ok((kind.make(desk), None));
    }
    if slug != KILL_SHEET {
        return Err(missing("No such paper", "The list of papers has those that there are."));
    }
    let fit = desk.subject.fit;
    if ask.get("sidpp").is_none() {
        let none = "The section has no casing above it, or its volumes cannot be worked out.";
        return blank_kill_sheet(desk).map(|paper| (paper, None)).ok_or_else(|| missing("No blank kill sheet", none));
    }
    let mut working = Working::default();
    let made = kill::order(ask, fit).and_then(|order| {
        kill_sheet(fit, &order, &mut working).map_err(|why| why.iter().map(|why| remark(why, ask.units())).collect())
    });
    let sheet = made.map_err(|why| Unmade::wrong("No kill sheet can be made of these readings", why.join("; ")))?;
    Ok((rigwright_papers::paper::kill_sheet(desk, &sheet), Some(working)))
}

/// A paper to read.
pub(crate) fn one(server: &Server, ask: &Ask) -> Reply {
    with(server, ask, |made| {
        let mut more: Vec<(&str, &str)> = wishes(ask);
        more.extend(kill::said(ask));
        more.extend(ask.get("record").map(|record| ("record", record)));
        let body = html! {
            p.back { a href=(made.case.url("/papers", &wishes(ask))) { "← the papers" } }
            h1 { (made.paper.title) }
            p.acts {
                (saves(made.case, made.paper.slug, &more, "this paper"))
                @if !TYPESETTER { span.faint { "PDF: " (NO_TYPESETTER) } }
            }
            (paper::paper(made.paper))
        };
        let frame = Frame { title: made.paper.title, case: Some(made.case), control: made.paper.control };
        Reply::page(frame.page(server, ask, &body))
    })
}

/// The name that a paper is saved under.
fn file_name(made: &Made, end: &str) -> String {
    let well = made.case.well.rsplit('/').next().unwrap_or_default().trim_end_matches(".toml");
    let mut name = picture::file_name(&format!("{well} {}", made.paper.slug));
    if let Some(section) = made.desk.section {
        // Writing to a string cannot fail.
        let _ = write!(name, "-{}", section + 1);
    }
    format!("{name}.{end}")
}

/// A paper as PDF.
pub(crate) fn as_pdf(server: &Server, ask: &Ask) -> Reply {
    let Some(size) = size(ask) else {
        return sorry(server, ask, 422, "No such sheet", "A paper is printed on `a4` or `letter`.");
    };
    with(server, ask, |made| match pdf(made.paper, size, &Templates::default()) {
        Ok(body) => Reply::File { kind: "application/pdf", name: Some(file_name(made, "pdf")), body },
        Err(PressError::NoTypesetter) => sorry(server, ask, 501, "No PDF from this build", NO_TYPESETTER),
        Err(error) => sorry(server, ask, 500, "The paper could not be set", &error.to_string()),
    })
}

/// A paper as a workbook.
pub(crate) fn as_workbook(server: &Server, ask: &Ask) -> Reply {
    const KIND: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
    with(server, ask, |made| {
        let book = made
            .working
            .map_or_else(|| workbook(made.desk, made.paper.slug), |working| desk_book(made.desk, "kill sheet", working));
        match book {
            Ok(body) => Reply::File { kind: KIND, name: Some(file_name(made, "xlsx")), body },
            Err(error) => sorry(server, ask, 404, "No workbook", &error.to_string()),
        }
    })
}
