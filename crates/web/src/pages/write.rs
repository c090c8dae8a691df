//! A what-if into the file: first the difference, then the writing, and a way back. A file that somebody else has
//! changed meanwhile is never overwritten.

use crate::ask::{Ask, Case, Reply};
use crate::change::{Changes, Line, difference, edit};
use crate::folder::{Mark, Unwritten};
use crate::frame::{Frame, secret, sorry, unread};
use crate::pages::picture;
use crate::shelf::Unread;
use crate::{Server, Undo};
use maud::{Markup, html};
use std::sync::PoisonError;

/// How many writes can be taken back.
const MOST_UNDONE: usize = 50;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let edited = &fitted.edited;
    let bare = case.with(Changes::default());
    let last = server.undo.lock().unwrap_or_else(PoisonError::into_inner).iter().any(|undo| undo.well == case.well);
    let body = html! {
        h1 { "Write to the file" }
        @if ask.get("done").is_some() { p role="status" { "Written." } }
        @if edited.after.is_empty() {
            p { "There is nothing to write: the file and the sheet are alike." }
        } @else {
            p { "This is what changes. Comments and order stay." }
            @for (name, after) in &edited.after {
                h2 { (name) }
                (shown(&difference(edited.before.get(name).map_or("", String::as_str), after)))
            }
            form method="post" action="/write" {
                (secret(server))
                (picture::hidden(&case, &[]))
                @for (name, before) in &edited.before { input type="hidden" name={ "seen." (name) } value=(Mark::of(before.as_bytes()).0); }
                p.acts { button { "Write" } a href=(case.url("/sheet", &[])) { "Not now" } }
            }
        }
        @if last {
            form method="post" action="/undo" {
                (secret(server))
                input type="hidden" name="well" value=(case.well);
                p.acts { button { "Take the last write back" } }
            }
        }
        p.acts { a href=(bare.url("/sheet", &[])) { "The sheet of the file" } }
    };
    Reply::page(Frame::of("Write to the file", &case).page(server, ask, &body))
}

/// A difference by lines; what goes and what comes is said in signs too.
pub(crate) fn shown(lines: &[Line]) -> Markup {
    html! {
        pre.difference tabindex="0" aria-label="difference" {
            @for line in lines {
                @match line {
                    Line::Same(text) => { span { "  " (text) "\n" } }
                    Line::Out(text) => { del { "- " (text) "\n" } }
                    Line::In(text) => { ins { "+ " (text) "\n" } }
                    Line::Gap(count) => { span.faint { "  … " (count) " lines alike\n" } }
                }
            }
        }
    }
}

pub(crate) fn write(server: &Server, ask: &Ask) -> Reply {
    let sent = Ask { query: ask.form.clone(), form: Vec::new(), cookies: Vec::new(), path: ask.path.clone(), as_of: ask.as_of };
    let case = sent.case();
    let edited = match edit(&server.folder, &case.well, &case.changes, None) {
        Ok(edited) => edited,
        Err(fault) => return unread(server, ask, &case, &Unread::Fault(fault)),
    };
    // What makes no well is not written.
    if let Err(why) = server.shelf.fitted(&server.folder, &case, false) {
        return unread(server, ask, &case, &why);
    }
    let seen = |name: &str| ask.sent(&format!("seen.{name}")).map(|mark| Mark(mark.to_owned()));
    let alike = |(name, before): (&String, &String)| seen(name).is_some_and(|mark| mark == Mark::of(before.as_bytes()));
    if !edited.before.iter().all(alike) {
        return changed_meanwhile(server, ask, &case);
    }
    let mut undo = Undo { well: case.well.clone(), files: Vec::new() };
    for (name, after) in &edited.after {
        let before = edited.before.get(name).cloned().unwrap_or_default();
        match server.folder.replace(name, &Mark::of(before.as_bytes()), after) {
            Ok(()) => undo.files.push((name.clone(), before, Mark::of(after.as_bytes()))),
            Err(why) => {
                remember(server, undo);
                return unwritten(server, ask, &case, &why);
            }
        }
    }
    remember(server, undo);
    Reply::go(case.with(Changes::default()).url("/write", &[("done", "1")]))
}

pub(crate) fn remember(server: &Server, undo: Undo) {
    if undo.files.is_empty() {
        return;
    }
    let mut kept = server.undo.lock().unwrap_or_else(PoisonError::into_inner);
    if kept.len() >= MOST_UNDONE {
        kept.remove(0);
    }
    kept.push(undo);
}

pub(crate) fn unwritten(server: &Server, ask: &Ask, case: &Case, why: &Unwritten) -> Reply {
    match why {
        Unwritten::Changed => changed_meanwhile(server, ask, case),
        Unwritten::Disk(error) => sorry(server, ask, 500, "Not written", &format!("The disk refuses: {error}.")),
    }
}

fn changed_meanwhile(server: &Server, ask: &Ask, case: &Case) -> Reply {
    let body = html! {
        h1 { "Not written: the file has changed" }
        p { "Somebody, or another program, has changed the file since you looked at it. Nothing was overwritten. Look at the \
            difference again: your change is then made in the new text." }
        p.acts { a href=(case.url("/write", &[])) { "Look again" } a href=(case.url("/sheet", &[])) { "To the sheet" } }
    };
    Reply::Page { status: 409, markup: Frame::of("The file has changed", case).page(server, ask, &body) }
}

pub(crate) fn undo(server: &Server, ask: &Ask) -> Reply {
    let well = ask.sent("well").unwrap_or_default();
    let case = Case { well: well.to_owned(), changes: Changes::default(), kept: Vec::new() };
    let last = {
        let mut kept = server.undo.lock().unwrap_or_else(PoisonError::into_inner);
        kept.iter().rposition(|undo| undo.well == well).map(|index| kept.remove(index))
    };
    let Some(last) = last else { return sorry(server, ask, 404, "Nothing to take back", "Nothing was written since the start.") };
    for (name, before, after) in &last.files {
        if let Err(why) = server.folder.replace(name, after, before) {
            return unwritten(server, ask, &case, &why);
        }
    }
    Reply::go(case.url("/sheet", &[]))
}
