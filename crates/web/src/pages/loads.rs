//! Hook load by depth of the bit in each motion, against the mast.

use crate::Server;
use crate::ask::{Ask, Reply};
use crate::frame::{Frame, unread};
use crate::pages::picture;
use crate::shelf::Fitted;
use maud::html;
use rigwright_margins::{course, question};
use rigwright_papers::figure::{self, Figure};
use rigwright_units::System;

const QUESTION: &str = "hoisting/hook-load";

fn section(ask: &Ask, fitted: &Fitted) -> usize {
    let last = fitted.loaded.fit.well.sections.len().saturating_sub(1);
    ask.get("section").and_then(|section| section.parse::<usize>().ok()).map_or(last, |section| section.min(last))
}

fn drawn(fitted: &Fitted, section: usize, units: System) -> Option<Figure> {
    let question = question(QUESTION)?;
    let asked = fitted.review.find(QUESTION, Some(section))?;
    let fit = &fitted.loaded.fit;
    Some(figure::course(fit, question, &course(fit, question, section), &asked.situation, units))
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let here = section(ask, &fitted);
    let text = here.to_string();
    let body = html! {
        h1 { "Hook load by depth" }
        nav.acts aria-label="sections" {
            @for (index, section) in fitted.loaded.fit.well.sections.iter().enumerate() {
                @let index_text = index.to_string();
                a href=(case.url("/loads", &[("section", &index_text)])) aria-current=[(index == here).then_some("true")] { (section.name) }
            }
        }
        @match drawn(&fitted, here, ask.units()) {
            Some(figure) => { (picture::picture(ask, &case, &figure, &picture::Shown { path: "/loads", table: "/loads.csv", more: &[("section", &text)] })) }
            None => { p { "There is no hook load to draw." } }
        }
    };
    Reply::page(Frame::of("Hook load by depth", &case).page(server, ask, &body))
}

pub(crate) fn csv(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => match drawn(&fitted, section(ask, &fitted), ask.units()) {
            Some(figure) => picture::saved(ask, &figure),
            None => crate::frame::sorry(server, ask, 404, "No hook load", "There is no hook load to draw."),
        },
        Err(why) => unread(server, ask, &case, &why),
    }
}
