//! The mud window by depth: rock against mud.

use crate::Server;
use crate::ask::{Ask, Reply};
use crate::frame::{Frame, unread};
use crate::pages::picture;
use maud::html;
use rigwright_margins::window;
use rigwright_papers::figure::{self, Figure};
use rigwright_units::System;
use rigwright_well::Fit;

fn drawn(fit: &Fit, ask: &Ask, units: System) -> Figure {
    let all = 0..fit.well.sections.len();
    let one = ask.get("section").and_then(|section| section.parse::<usize>().ok()).filter(|section| all.contains(section));
    let rows: Vec<_> =
        all.filter(|section| one.is_none_or(|one| one == *section)).map(|section| (section, window(fit, section))).collect();
    figure::window(fit, &rows, units)
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let fit = &fitted.loaded.fit;
    let figure = drawn(fit, ask, ask.units());
    let more: Vec<(&str, &str)> = ask.get("section").map(|section| ("section", section)).into_iter().collect();
    let body = html! {
        h1 { "Mud window" }
        nav.acts aria-label="sections" {
            a href=(case.url("/window", &[])) aria-current=[more.is_empty().then_some("true")] { "all sections" }
            @for (index, section) in fit.well.sections.iter().enumerate() {
                @let index = index.to_string();
                a href=(case.url("/window", &[("section", &index)])) aria-current=[(ask.get("section") == Some(&index)).then_some("true")] { (section.name) }
            }
        }
        div #pictures data-live { (picture::picture(ask, &case, &figure, &picture::Shown { path: "/window", table: "/window.csv", more: &more })) }
    };
    Reply::page(Frame::of("Mud window", &case).page(server, ask, &body))
}

pub(crate) fn csv(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => picture::saved(ask, &drawn(&fitted.loaded.fit, ask, ask.units())),
        Err(why) => unread(server, ask, &case, &why),
    }
}
