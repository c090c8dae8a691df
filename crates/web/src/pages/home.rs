//! The first page: straight to the one well, or the list of the folder.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::change::Changes;
use crate::frame::{Frame, sorry};
use maud::html;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = |well: &str| Case { well: well.to_owned(), changes: Changes::default(), kept: Vec::new() };
    if let (Some(home), None) = (&server.home, ask.get("all")) {
        return Reply::go(case(home).url("/sheet", &[]));
    }
    let wells = server.folder.wells();
    let body = html! {
        h1 { "Wells" }
        @if wells.is_empty() {
            p { "There is no well in this folder yet. A well is a text file that ends with " code { ".toml" } " and has sections." }
        } @else {
            ul.wells { @for well in &wells { li { a href=(case(well).url("/sheet", &[])) { (well) } } } }
        }
        p.acts { a href="/new" { "New well" } }
    };
    Reply::page(Frame::new("Wells").page(server, ask, &body))
}

/// An address that leads nowhere.
pub(crate) fn nowhere(server: &Server, ask: &Ask) -> Reply {
    sorry(server, ask, 404, "There is no such page", "The address may be mistyped, or from another version.")
}
