//! The text of a well and its rig, with a form by subject and the findings beside it as one types.

use crate::ask::{Ask, Case, Reply};
use crate::change::{Changes, rig_of};
use crate::folder::{Folder, Mark, Overlay};
use crate::frame::{Frame, found, list, secret, sorry};
use crate::pages::fill::{self, Filling};
use crate::pages::write::{remember, unwritten};
use crate::{Server, Undo};
use maud::{Markup, html};
use rigwright_wellfile::{Fault, read};
use std::collections::BTreeMap;

/// The file that is edited: the well, or the rig that it names.
fn edited(server: &Server, case: &Case, file: Option<&str>) -> std::io::Result<(String, Vec<String>)> {
    let well = Folder::tidy(&case.well)?;
    let mut files = vec![well.clone()];
    if let Ok(text) = server.folder.text(&well) {
        files.extend(rig_of(&well, &text));
    }
    let chosen = file.and_then(|file| files.iter().find(|known| *known == file)).unwrap_or(&files[0]).clone();
    Ok((chosen, files))
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case().with(Changes::default());
    let opened = edited(server, &case, ask.get("file")).and_then(|(file, files)| Ok((server.folder.text(&file)?, file, files)));
    match opened {
        Ok((text, file, files)) => {
            let seen = Mark::of(text.as_bytes());
            let editor =
                Editor { file: &file, files: &files, text: &text, seen: &seen, subject: ask.get("subject"), fault: None };
            form(server, ask, &case, &editor, 200)
        }
        Err(error) => sorry(server, ask, 404, "The file cannot be read", &format!("{error}.")),
    }
}

/// What stands in the editor.
struct Editor<'a> {
    /// The file that is edited.
    file: &'a str,
    /// The well and its rig.
    files: &'a [String],
    /// Its text.
    text: &'a str,
    /// The file as it was when it was opened.
    seen: &'a Mark,
    /// The subject of the form.
    subject: Option<&'a str>,
    /// What the form could not do.
    fault: Option<&'a Fault>,
}

fn form(server: &Server, ask: &Ask, case: &Case, editor: &Editor<'_>, status: u16) -> Reply {
    let Editor { file, files, text, seen, .. } = *editor;
    let body = html! {
        h1 { (file) }
        nav.acts aria-label="files" {
            @for other in files {
                a href=(case.url("/edit", &[("file", other)])) aria-current=[(other == file).then_some("true")] { (other) }
            }
        }
        form.editor method="post" action="/edit" {
            (secret(server))
            input type="hidden" name="well" value=(case.well);
            input type="hidden" name="file" value=(file);
            input type="hidden" name="seen" value=(seen.0);
            div.beside-text { (beside(server, case, editor))
                div {
                    label for="text" { "Text of the file" }
                    textarea #text name="text" rows="40" spellcheck="false" autocapitalize="off" autocomplete="off" wrap="off" { "\n" (text) }
                    p.acts { button { "Save" } }
                }
            }
        }
    };
    Reply::Page { status, markup: Frame::of(file, case).page(server, ask, &body) }
}

/// The form by subject, and what is found when this text stands in the file.
fn beside(server: &Server, case: &Case, editor: &Editor<'_>) -> Markup {
    let Editor { file, text, files, subject, fault, .. } = *editor;
    let texts = BTreeMap::from([(file.to_owned(), text.to_owned())]);
    let result = read(&case.well, None, &Overlay { folder: &server.folder, texts: &texts });
    let list_of = match &result {
        Ok(loaded) => &loaded.cautions,
        Err(findings) => &findings.list,
    };
    let rig = files.first().is_some_and(|well| well != file);
    html! {
        section #fill aria-label="form" { (Filling { file, rig, text, findings: list_of, subject, fault }.form()) }
        section #findings aria-live="polite" aria-label="findings" {
            h2 { "Findings" }
            @match &result {
                Ok(loaded) if loaded.cautions.is_empty() => { p { "None: the files make a well." } }
                Ok(loaded) => { p { "The files make a well." } (list(&loaded.cautions)) }
                Err(findings) => { (found(findings)) }
            }
        }
    }
}

/// The text as it was sent, with the line ends of files.
fn sent_text(ask: &Ask) -> String {
    ask.sent("text").unwrap_or_default().replace("\r\n", "\n")
}

/// What stands beside the text, for the page to put there while somebody types.
pub(crate) fn check(server: &Server, ask: &Ask) -> Reply {
    let case = case_of(ask);
    match edited(server, &case, ask.sent("file")) {
        Ok((file, files)) => {
            let (text, seen) = (sent_text(ask), seen(ask));
            let editor =
                Editor { file: &file, files: &files, text: &text, seen: &seen, subject: ask.sent("subject"), fault: None };
            Reply::page(beside(server, &case, &editor))
        }
        Err(error) => Reply::page(html! { p { (error) } }),
    }
}

/// The text in the editor, changed as the form says; nothing is written.
pub(crate) fn put(server: &Server, ask: &Ask) -> Reply {
    let case = case_of(ask);
    let (file, files) = match edited(server, &case, ask.sent("file")) {
        Ok(edited) => edited,
        Err(error) => return sorry(server, ask, 404, "The file cannot be read", &format!("{error}.")),
    };
    let before = sent_text(ask);
    let rig = files.first().is_some_and(|well| *well != file);
    let (text, fault) = match fill::put(ask, &before, rig) {
        Ok(text) => (text, None),
        Err(fault) => (before, Some(fault)),
    };
    let status = if fault.is_some() { 422 } else { 200 };
    let seen = seen(ask);
    let editor =
        Editor { file: &file, files: &files, text: &text, seen: &seen, subject: ask.sent("subject"), fault: fault.as_ref() };
    form(server, ask, &case, &editor, status)
}

fn case_of(ask: &Ask) -> Case {
    Case { well: ask.sent("well").unwrap_or_default().to_owned(), changes: Changes::default(), kept: Vec::new() }
}

fn seen(ask: &Ask) -> Mark {
    Mark(ask.sent("seen").unwrap_or_default().to_owned())
}

pub(crate) fn save(server: &Server, ask: &Ask) -> Reply {
    let case = case_of(ask);
    let (file, files) = match edited(server, &case, ask.sent("file")) {
        Ok(edited) => edited,
        Err(error) => return sorry(server, ask, 404, "The file cannot be read", &format!("{error}.")),
    };
    let (text, seen) = (sent_text(ask), seen(ask));
    if text.len() as u64 > rigwright_wellfile::LARGEST_FILE {
        return sorry(server, ask, 413, "The text is too long", "Files of more than 4 MB are not read; a well fits in a few kB.");
    }
    let texts = BTreeMap::from([(file.clone(), text.clone())]);
    if read(&case.well, None, &Overlay { folder: &server.folder, texts: &texts }).is_err() {
        // The form stays as it was typed, with what is wrong beside it; the file stays as it was.
        let editor = Editor { file: &file, files: &files, text: &text, seen: &seen, subject: ask.sent("subject"), fault: None };
        return form(server, ask, &case, &editor, 422);
    }
    let before = server.folder.text(&file).unwrap_or_default();
    match server.folder.replace(&file, &seen, &text) {
        Ok(()) => {
            remember(server, Undo { well: case.well.clone(), files: vec![(file, before, Mark::of(text.as_bytes()))] });
            Reply::go(case.url("/write", &[("done", "1")]))
        }
        Err(why) => unwritten(server, ask, &case, &why),
    }
}
