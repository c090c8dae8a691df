//! A survey from CSV into the well: looked through first, then put in place of the stations.

use crate::ask::{Ask, Case, Reply};
use crate::change::Changes;
use crate::folder::{Folder, Mark, Overlay};
use crate::frame::{Frame, found, secret, sorry};
use crate::pages::write::{remember, unwritten};
use crate::{Server, Undo};
use maud::html;
use rigwright_wellfile::{read, with_survey_file};
use std::collections::BTreeMap;

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    form(server, ask, &ask.case().with(Changes::default()), 200, None)
}

fn form(server: &Server, ask: &Ask, case: &Case, status: u16, wrong: Option<&maud::Markup>) -> Reply {
    let body = html! {
        h1 { "Import a survey" }
        p { "Paste the lines of a CSV file. The first line names the columns with their units: "
            code { "md [ft], inclination [deg], azimuth [deg]" } ". It is put beside the well as a file of its own, which the well then names." }
        form method="post" action="/survey" {
            (secret(server))
            input type="hidden" name="well" value=(case.well);
            @if let Some(wrong) = wrong { div role="alert" { (wrong) } }
            label for="csv" { "CSV" }
            textarea #csv name="csv" rows="20" spellcheck="false" wrap="off" required { "\n" (ask.sent("csv").unwrap_or_default()) }
            p.acts { button { "Import" } a href=(case.url("/sheet", &[])) { "Not now" } }
        }
    };
    Reply::Page { status, markup: Frame::of("Import a survey", case).page(server, ask, &body) }
}

pub(crate) fn take(server: &Server, ask: &Ask) -> Reply {
    let case = Case { well: ask.sent("well").unwrap_or_default().to_owned(), changes: Changes::default(), kept: Vec::new() };
    let csv = ask.sent("csv").unwrap_or_default().replace("\r\n", "\n");
    let opened = Folder::tidy(&case.well).and_then(|well| Ok((server.folder.text(&well)?, well)));
    let (before, well) = match opened {
        Ok(opened) => opened,
        Err(error) => return sorry(server, ask, 404, "The well cannot be read", &format!("{error}.")),
    };
    // A name of its own for every import: an earlier survey stays as it was.
    let stem = well.trim_end_matches(".toml");
    let name = format!("{stem}-survey-{}.csv", ask.as_of.strftime("%Y%m%d-%H%M%S"));
    let short = name.rsplit('/').next().unwrap_or(&name).to_owned();
    let after = match with_survey_file(&before, &short) {
        Ok(after) => after,
        Err(fault) => return sorry(server, ask, 422, "The well cannot be read", &format!("{fault}.")),
    };
    let texts = BTreeMap::from([(well.clone(), after.clone()), (name.clone(), csv.clone())]);
    if let Err(findings) = read(&case.well, None, &Overlay { folder: &server.folder, texts: &texts }) {
        return form(server, ask, &case, 422, Some(&found(&findings)));
    }
    if let Err(error) = server.folder.create(&name, &csv) {
        return sorry(server, ask, 500, "Not written", &format!("{name} cannot be written: {error}."));
    }
    match server.folder.replace(&well, &Mark::of(before.as_bytes()), &after) {
        Ok(()) => {
            remember(server, Undo { well: case.well.clone(), files: vec![(well, before, Mark::of(after.as_bytes()))] });
            Reply::go(case.url("/write", &[("done", "1")]))
        }
        Err(why) => unwritten(server, ask, &case, &why),
    }
}
