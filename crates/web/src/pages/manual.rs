//! The theory manual and the validation report, as they are in `docs`.

use crate::Server;
use crate::ask::{Ask, Reply};
use crate::frame::{Frame, sorry};
use maud::{PreEscaped, html};
use pulldown_cmark::{Event, Options, Parser, Tag, TagEnd};

include!(concat!(env!("OUT_DIR"), "/manual.rs"));

pub(crate) fn index(server: &Server, ask: &Ask) -> Reply {
    shown(server, ask, "index")
}

pub(crate) fn one(server: &Server, ask: &Ask) -> Reply {
    shown(server, ask, ask.path.rsplit('/').next().unwrap_or_default())
}

fn shown(server: &Server, ask: &Ask, name: &str) -> Reply {
    let name = name.trim_end_matches(".md");
    let Some((_, text)) = PAGES.iter().find(|(known, _)| *known == name) else {
        return sorry(server, ask, 404, "There is no such page of the manual", "Its first page lists them all.");
    };
    let body = html! {
        p.acts { a href="/manual" { "Contents" } a href="/manual/validation" { "Validation report" } }
        // Our own pages, without raw HTML.
        article.manual { (PreEscaped(rendered(text))) }
    };
    Reply::page(Frame::new("Manual").page(server, ask, &body))
}

fn rendered(text: &str) -> String {
    let mut out = String::with_capacity(text.len() * 2);
    let mut heading = String::new();
    let mut events = Vec::new();
    let mut opened = None;
    for event in Parser::new_ext(text, Options::ENABLE_TABLES) {
        match event {
            Event::Html(raw) | Event::InlineHtml(raw) => events.push(Event::Text(raw)),
            Event::Start(Tag::Heading { level, classes, attrs, .. }) => {
                heading.clear();
                opened = Some(events.len());
                events.push(Event::Start(Tag::Heading { level, id: None, classes, attrs }));
            }
            Event::End(TagEnd::Heading(level)) => {
                if let Some(Event::Start(Tag::Heading { id, .. })) = opened.take().and_then(|at| events.get_mut(at)) {
                    *id = Some(slug(&heading).into());
                }
                events.push(Event::End(TagEnd::Heading(level)));
            }
            Event::Start(Tag::Link { link_type, dest_url, title, id }) => {
                let dest_url = address(&dest_url).into();
                events.push(Event::Start(Tag::Link { link_type, dest_url, title, id }));
            }
            Event::Text(words) => {
                heading.push_str(&words);
                events.push(Event::Text(words));
            }
            Event::Code(words) => {
                heading.push_str(&words);
                events.push(Event::Code(words));
            }
            other => events.push(other),
        }
    }
    pulldown_cmark::html::push_html(&mut out, events.into_iter());
    out.replace("<table>", "<div class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"table\"><table>")
        .replace("</table>", "</table></div>")
}

/// A link between files of `docs` as an address of the page.
fn address(link: &str) -> String {
    let (file, part) = link.split_once('#').map_or((link, None), |(file, part)| (file, Some(part)));
    if file.contains(':') || !(file.is_empty() || file.ends_with(".md")) {
        return link.to_owned();
    }
    let name = file.rsplit('/').next().unwrap_or(file).trim_end_matches(".md");
    let page = if name.is_empty() { String::new() } else { format!("/manual/{name}") };
    part.map_or(page.clone(), |part| format!("{page}#{part}"))
}

/// The name of a heading in an address.
fn slug(heading: &str) -> String {
    let kept =
        heading.trim().to_lowercase().chars().filter(|c| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_')).collect::<String>();
    kept.replace(' ', "-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_link_of_the_manual_leads_somewhere() {
        let mut looked_at = 0;
        for (name, text) in PAGES {
            let page = rendered(text);
            for link in page.split("href=\"").skip(1).filter_map(|rest| rest.split('"').next()) {
                let (path, part) = link.split_once('#').map_or((link, None), |(path, part)| (path, Some(part)));
                if path.contains(':') {
                    continue;
                }
                let target = if path.is_empty() { name } else { path.trim_start_matches("/manual/") };
                let Some((_, text)) = PAGES.iter().find(|(known, _)| *known == target) else { panic!("{name}: {link}") };
                if let Some(part) = part {
                    assert!(rendered(text).contains(&format!("id=\"{part}\"")), "{name}: {link}");
                }
                looked_at += 1;
            }
        }
        assert!(looked_at > 100, "{looked_at}");
    }
}
