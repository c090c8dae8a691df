//! The text of a well and its rig, with the findings beside it as one types.

use crate::ask::{Ask, Case, Reply};
use crate::change::{Changes, rig_of};
use crate::folder::{Folder, Mark, Overlay};
use crate::frame::{Frame, found, list, secret, sorry};
use crate::pages::write::{remember, unwritten};
use crate::{Server, Undo};
use maud::{Markup, html};
use rigwright_wellfile::read;
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
            let editor = Editor { file: &file, files: &files, text: &text, seen: &Mark::of(text.as_bytes()) };
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
}

fn form(server: &Server, ask: &Ask, case: &Case, editor: &Editor<'_>, status: u16) -> Reply {
    let Editor { file, files, text, seen } = *editor;
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
            div.two {
                div {
                    label for="text" { "Text of the file" }
                    textarea #text name="text" rows="40" spellcheck="false" autocapitalize="off" autocomplete="off" wrap="off" { "\n" (text) }
                    p.acts { button { "Save" } }
                }
                section #findings aria-live="polite" aria-label="findings" { (findings(server, case, file, text)) }
            }
        }
    };
    Reply::Page { status, markup: Frame::of(file, case).page(server, ask, &body) }
}

/// What is found when this text stands in the file.
fn findings(server: &Server, case: &Case, file: &str, text: &str) -> Markup {
    let texts = BTreeMap::from([(file.to_owned(), text.to_owned())]);
    html! {
        h2 { "Findings" }
        @match read(&case.well, None, &Overlay { folder: &server.folder, texts: &texts }) {
            Ok(loaded) if loaded.cautions.is_empty() => { p { "None: the files make a well." } }
            Ok(loaded) => { p { "The files make a well." } (list(&loaded.cautions)) }
            Err(findings) => { (found(&findings)) }
        }
    }
}

/// The text as it was sent, with the line ends of files.
fn sent_text(ask: &Ask) -> String {
    ask.sent("text").unwrap_or_default().replace("\r\n", "\n")
}

/// Findings alone, for the page to put beside the text while somebody types.
pub(crate) fn check(server: &Server, ask: &Ask) -> Reply {
    let case = Case { well: ask.sent("well").unwrap_or_default().to_owned(), changes: Changes::default(), kept: Vec::new() };
    match edited(server, &case, ask.sent("file")) {
        Ok((file, _)) => Reply::page(findings(server, &case, &file, &sent_text(ask))),
        Err(error) => Reply::page(html! { p { (error) } }),
    }
}

pub(crate) fn save(server: &Server, ask: &Ask) -> Reply {
    let case = Case { well: ask.sent("well").unwrap_or_default().to_owned(), changes: Changes::default(), kept: Vec::new() };
    let (file, files) = match edited(server, &case, ask.sent("file")) {
        Ok(edited) => edited,
        Err(error) => return sorry(server, ask, 404, "The file cannot be read", &format!("{error}.")),
    };
    let (text, seen) = (sent_text(ask), Mark(ask.sent("seen").unwrap_or_default().to_owned()));
    if text.len() as u64 > rigwright_wellfile::LARGEST_FILE {
        return sorry(server, ask, 413, "The text is too long", "Files of more than 4 MB are not read; a well fits in a few kB.");
    }
    let texts = BTreeMap::from([(file.clone(), text.clone())]);
    if read(&case.well, None, &Overlay { folder: &server.folder, texts: &texts }).is_err() {
        // The form stays as it was typed, with what is wrong beside it; the file stays as it was.
        return form(server, ask, &case, &Editor { file: &file, files: &files, text: &text, seen: &seen }, 422);
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
