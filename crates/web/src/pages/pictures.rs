//! The pictures of a well, one a question, with what the crew may turn beside them.

use crate::Server;
use crate::ask::{Ask, Case, Reply, Turning};
use crate::frame::{Frame, sorry, unread};
use crate::pages::{knobs, picture};
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_papers::figure::{Drawing, Ground, PICTURES, Picture};

/// The picture that is asked for, else the first.
fn chosen(ask: &Ask) -> &'static Picture {
    let shown = ask.get("show").unwrap_or_default();
    PICTURES.iter().find(|picture| picture.slug == shown).unwrap_or(&PICTURES[0])
}

/// The section that is asked for; a picture of one section takes the last without.
fn section(ask: &Ask, fitted: &Fitted, picture: &Picture) -> Option<usize> {
    let last = fitted.loaded.fit.well.sections.len().checked_sub(1)?;
    let asked = ask.get("section").and_then(|section| section.parse::<usize>().ok()).map(|section| section.min(last));
    if picture.all_sections { asked } else { Some(asked.unwrap_or(last)) }
}

fn drawn(ask: &Ask, fitted: &Fitted, picture: &Picture) -> Option<Drawing> {
    let section = section(ask, fitted, picture);
    (picture.draw)(&Ground { fit: &fitted.loaded.fit, review: &fitted.review, section, units: ask.units() })
}

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let mut case = ask.case();
    let fitted = match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => fitted,
        Err(why) => return unread(server, ask, &case, &why),
    };
    let picture = chosen(ask);
    let index = section(ask, &fitted, picture).map(|section| section.to_string());
    let mut more = vec![("show", picture.slug)];
    more.extend(index.as_deref().map(|index| ("section", index)));
    if knobs::leave_out_what_is_written(server, &mut case) {
        return Reply::go(case.url("/pictures", &more));
    }
    let body = body(ask, &case, &fitted, picture, &more);
    let frame = Frame { title: picture.title, case: Some(&case), control: picture.control };
    Reply::page(frame.page(server, ask, &body))
}

fn body(ask: &Ask, case: &Case, fitted: &Fitted, picture: &Picture, more: &[(&str, &str)]) -> Markup {
    let here = more.iter().find(|(key, _)| *key == "section").map(|(_, index)| *index);
    html! {
        h1 { (picture.title) }
        p { (picture.asks) }
        div.three {
            nav.list aria-label="pictures" {
                ul { @for other in &PICTURES {
                    @let mut to = vec![("show", other.slug)];
                    @let kept = here.filter(|_| !other.all_sections);
                    @let () = to.extend(kept.map(|index| ("section", index)));
                    li { a href=(case.url("/pictures", &to)) aria-current=[(other.slug == picture.slug).then_some("page")] { (other.title) } }
                } }
            }
            div {
                nav.acts aria-label="sections" {
                    @if picture.all_sections {
                        a href=(case.url("/pictures", &[("show", picture.slug)])) aria-current=[here.is_none().then_some("true")] { "all sections" }
                    }
                    @for (index, section) in fitted.loaded.fit.well.sections.iter().enumerate() {
                        @let index = index.to_string();
                        a href=(case.url("/pictures", &[("show", picture.slug), ("section", &index)]))
                            aria-current=[(here == Some(&*index)).then_some("true")] { (section.name) }
                    }
                }
                div #pictures data-live {
                    @match drawn(ask, fitted, picture) {
                        Some(drawing) => { (picture::drawing(ask, case, &drawing, &picture::Shown { path: "/pictures", table: "/pictures.csv", more })) }
                        None => { p.empty { "Nothing to draw: the question does not arise in this section, or the files do not say enough." } }
                    }
                }
            }
            @if ask.turning() != Turning::Drag { (knobs::panel(case, fitted, "/pictures", more)) }
        }
    }
}

pub(crate) fn csv(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => match drawn(ask, &fitted, chosen(ask)) {
            Some(Drawing::Figure(figure)) => picture::saved(ask, &figure),
            Some(Drawing::Bars(bars)) => picture::saved_as(&bars.title, bars.csv()),
            None => sorry(server, ask, 404, "No numbers", "There is nothing to draw here, so there are no numbers to save."),
        },
        Err(why) => unread(server, ask, &case, &why),
    }
}
