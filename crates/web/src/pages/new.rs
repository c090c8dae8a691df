//! A new well from the commented starter.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::change::Changes;
use crate::frame::{Frame, secret};
use maud::html;
use rigwright_wellfile::starter;

const LONGEST_NAME: usize = 60;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    form(server, ask, 200, None)
}

fn form(server: &Server, ask: &Ask, status: u16, wrong: Option<&str>) -> Reply {
    let body = html! {
        h1 { "New well" }
        p { "A small invented well and a rig, with every entry explained, to put your own figures in." }
        form.narrow method="post" action="/new" {
            (secret(server))
            @if let Some(wrong) = wrong { p role="alert" { (wrong) } }
            label { "Name" input name="name" required maxlength=(LONGEST_NAME) value=(ask.sent("name").unwrap_or_default()) autocomplete="off"; }
            button { "Make the files" }
        }
    };
    Reply::Page { status, markup: Frame::new("New well").page(server, ask, &body) }
}

pub(crate) fn make(server: &Server, ask: &Ask) -> Reply {
    let name = ask.sent("name").unwrap_or_default().trim();
    let plain: String = name
        .chars()
        .take(LONGEST_NAME)
        .map(|c| if c.is_alphanumeric() { c.to_lowercase().to_string() } else { " ".into() })
        .collect();
    let stem = plain.split_whitespace().collect::<Vec<_>>().join("-");
    if stem.is_empty() {
        return form(server, ask, 422, Some("A name needs a letter or a figure."));
    }
    let (well, rig) = (format!("{stem}.toml"), format!("{stem}-rig.toml"));
    let starter = starter(name, &rig);
    // The rig first: a well whose rig is missing could not be read.
    for (file, text) in [(&rig, &starter.rig), (&well, &starter.well)] {
        if let Err(error) = server.folder.create(file, text) {
            let words = match error.kind() {
                std::io::ErrorKind::AlreadyExists => {
                    format!("{file} is there already and is not overwritten. Choose another name.")
                }
                _ => format!("{file} cannot be written: {error}."),
            };
            return form(server, ask, 409, Some(&words));
        }
    }
    let case = Case { well, changes: Changes::default(), kept: Vec::new() };
    Reply::go(case.url("/edit", &[]))
}
