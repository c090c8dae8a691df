//! The frame of every page: head, ways to the other pages, the what-if band, and the caution at its foot.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::shelf::Unread;
use maud::{DOCTYPE, Markup, html};
use rigwright_papers::view;
use rigwright_wellfile::{Findings, Severity};

/// What stands around a page.
pub(crate) struct Frame<'a> {
    pub(crate) title: &'a str,
    /// The well that it is about.
    pub(crate) case: Option<&'a Case>,
    /// Whether it is about pressure control, which opens with a word of its own.
    pub(crate) control: bool,
}

impl<'a> Frame<'a> {
    pub(crate) fn new(title: &'a str) -> Frame<'a> {
        Frame { title, case: None, control: false }
    }

    pub(crate) fn of(title: &'a str, case: &'a Case) -> Frame<'a> {
        Frame { title, case: Some(case), control: false }
    }

    /// A page.
    pub(crate) fn page(&self, server: &Server, ask: &Ask, body: &Markup) -> Markup {
        let whatif = self.case.is_some_and(|case| !case.changes.is_empty());
        html! {
            (DOCTYPE)
            html lang="en" data-theme=[ask.theme()] {
                head {
                    meta charset="utf-8";
                    meta name="viewport" content="width=device-width, initial-scale=1";
                    meta name="color-scheme" content="light dark";
                    title { (self.title) " · Rigwright" }
                    link rel="stylesheet" href="/assets/page.css";
                    script type="module" src="/assets/page.js" {}
                }
                body class=[whatif.then_some("what-if")] {
                    a.skip href="#main" { "to the content" }
                    (self.head(server, ask))
                    @if whatif { (band(self.case)) }
                    @if self.control {
                        p.shut-in role="note" { strong { (view::CAUTION[0]) } }
                    }
                    main #main tabindex="-1" { (body) }
                    footer {
                        h2 { "Caution" }
                        @for words in view::CAUTION { p { (words) } }
                        p.faint { "Rigwright plans and trains; it controls no equipment. Made " (moment(ask)) "." }
                    }
                }
            }
        }
    }

    fn head(&self, server: &Server, ask: &Ask) -> Markup {
        let here = |path: &str| (ask.path == path || ask.path.starts_with(&format!("{path}/"))).then_some("page");
        html! {
            header.top {
                a.name href="/" { "Rigwright" }
                nav aria-label="pages" {
                    @if let Some(case) = self.case {
                        @for (path, name) in WELL_PAGES {
                            a href=(case.url(path, &[])) aria-current=[here(path)] { (name) }
                        }
                        span.gap {}
                    }
                    @for (path, name) in PAGES {
                        a href=(path) aria-current=[here(path)] { (name) }
                    }
                    @if server.access.is_some() && ask.path != "/enter" {
                        form method="post" action="/leave" { (secret(server)) button.link { "Leave" } }
                    }
                }
            }
        }
    }
}

const WELL_PAGES: [(&str, &str); 7] = [
    ("/sheet", "Sheet"),
    ("/pictures", "Pictures"),
    ("/kill", "Kill desk"),
    ("/papers", "Papers"),
    ("/due", "Due"),
    ("/inputs", "Inputs"),
    ("/edit", "Text"),
];

const PAGES: [(&str, &str); 3] = [("/formulas", "Formulas"), ("/manual", "Manual"), ("/settings", "Settings")];

fn moment(ask: &Ask) -> String {
    ask.as_of.strftime("%Y-%m-%d %H:%M UTC").to_string()
}

/// The word across a page of unsaved values, and what they are.
fn band(case: Option<&Case>) -> Markup {
    let Some(case) = case else { return html! {} };
    html! {
        div.word-across aria-hidden="true" { "WHAT-IF" }
        section.band aria-label="what-if" {
            strong { "WHAT-IF" }
            " — not in the file: "
            ul.changes {
                @for (path, value) in case.changes.iter() {
                    li {
                        code { (path) } " = " b { (value) }
                        " " a href=(case.with(case.changes.without(path)).url("/sheet", &[])) aria-label={ "take back " (path) } { "take back" }
                    }
                }
            }
            span.acts {
                a href=(case.url("/write", &[])) { "Write to the file…" }
                a href=(keep(case)) { "Keep beside" }
                a href=(case.with(crate::change::Changes::default()).url("/sheet", &[])) { "Drop all" }
            }
        }
    }
}

/// The what-if is put beside those that are kept.
fn keep(case: &Case) -> String {
    let mut kept = case.clone();
    if !kept.kept.contains(&case.changes) && kept.kept.len() < Case::MOST_KEPT {
        kept.kept.push(case.changes.clone());
    }
    kept.url("/beside", &[])
}

/// The hidden field that every form of ours carries.
pub(crate) fn secret(server: &Server) -> Markup {
    html! { input type="hidden" name="form_secret" value=(server.form_secret.text()); }
}

/// A page that says what went wrong.
pub(crate) fn sorry(server: &Server, ask: &Ask, status: u16, title: &str, words: &str) -> Reply {
    let body = html! { h1 { (title) } p { (words) } p { a href="/" { "To the first page" } } };
    Reply::Page { status, markup: Frame::new(title).page(server, ask, &body) }
}

/// A page for a well that cannot be reviewed: every finding with its place and what to write instead.
pub(crate) fn unread(server: &Server, ask: &Ask, case: &Case, why: &Unread) -> Reply {
    let (title, body) = match why {
        Unread::Findings(findings) => ("The files need mending", found(findings)),
        Unread::Fault(fault) => ("The change cannot be made", html! { p role="alert" { (fault.0) } }),
    };
    let drop = case.with(crate::change::Changes::default());
    let body = html! {
        h1 { (title) }
        (body)
        p.acts {
            @if !case.changes.is_empty() { a href=(drop.url("/sheet", &[])) { "Without the what-if" } }
            a href=(drop.url("/edit", &[])) { "Open the text" }
            a href="/" { "All wells" }
        }
    };
    Reply::Page { status: 422, markup: Frame::of(title, case).page(server, ask, &body) }
}

/// Findings as a list.
pub(crate) fn found(findings: &Findings) -> Markup {
    html! {
        p { (findings) }
        (list(&findings.list))
    }
}

/// Findings as a list.
pub(crate) fn list(findings: &[rigwright_wellfile::Finding]) -> Markup {
    html! {
        ol.findings {
            @for finding in findings {
                li {
                    b { @if finding.severity == Severity::Error { "error: " } @else { "caution: " } }
                    (finding.message)
                    @for label in &finding.labels {
                        div.place data-line=(label.place.line()) {
                            (label.place.source.name) ", line " (label.place.line()) ": "
                            code { (label.place.source.slice(&label.place.span)) }
                            @if !label.text.is_empty() { " — " (label.text) }
                        }
                    }
                    @if let Some(help) = &finding.help { div.help { (help) } }
                }
            }
        }
    }
}
