//! Every figure of the files as a form by subject: what is given, what is assumed, what is unknown. Sending it asks what
//! if; the file stays as it is until the change is written.

use crate::Server;
use crate::ask::{Ask, Case, Reply};
use crate::frame::{Frame, unread};
use crate::pages::{knobs, picture};
use crate::shelf::Fitted;
use maud::{Markup, html};
use rigwright_papers::view::path_words;
use rigwright_wellfile::{Form, Origin, entry};

pub(crate) fn page(server: &Server, ask: &Ask) -> Reply {
    let case = ask.case();
    match server.shelf.fitted(&server.folder, &case, false) {
        Ok(fitted) => {
            let body = body(&case, &fitted);
            Reply::page(Frame::of("Inputs", &case).page(server, ask, &body))
        }
        Err(why) => unread(server, ask, &case, &why),
    }
}

/// One field of the form.
struct Field<'a> {
    path: &'a str,
    value: &'a str,
    note: String,
}

fn body(case: &Case, fitted: &Fitted) -> Markup {
    let fit = &fitted.loaded.fit;
    let mut groups: Vec<(String, Vec<Field>)> = Vec::new();
    let rows = fitted.loaded.provenance.iter().map(|(path, origin)| {
        let note = match origin {
            Origin::Given { source, line, .. } => format!("{}, line {line}", source.name),
            Origin::Defaulted { source, .. } => format!("assumed: {source}"),
        };
        Field { path, value: knobs::text(origin), note }
    });
    let unknown = fitted.loaded.provenance.unknown().map(|path| Field { path, value: "", note: "unknown".to_owned() });
    for field in rows.chain(unknown) {
        let fits = entry(field.path).is_some_and(|entry| !matches!(entry.form, Form::Table | Form::Tables | Form::Stations));
        if !fits {
            continue;
        }
        let table = field.path.rsplit_once('.').map_or("the well", |(table, _)| table).to_owned();
        match groups.iter_mut().find(|(known, _)| *known == table) {
            Some((_, fields)) => fields.push(field),
            None => groups.push((table, vec![field])),
        }
    }
    html! {
        h1 { "Inputs" }
        p { "Change anything and ask: it becomes a what-if. Nothing is written until you say so." }
        form method="get" action="/sheet" data-trim {
            (picture::hidden(&Case { changes: crate::change::Changes::default(), ..case.clone() }, &[]))
            p.acts { button { "Ask what if" } a href=(case.url("/survey", &[])) { "Import a survey" } }
            @for (table, fields) in &groups {
                details open[fields.iter().any(|field| case.changes.get(field.path).is_some())] {
                    summary { (path_words(fit, table)) span.faint { " " code { (table) } } }
                    div.fields { @for field in fields { (row(case, field)) } }
                }
            }
            p.acts { button { "Ask what if" } }
        }
    }
}

fn row(case: &Case, field: &Field) -> Markup {
    let id = format!("if.{}", field.path);
    let help = entry(field.path).map_or("", |entry| entry.help);
    let key = field.path.rsplit('.').next().unwrap_or(field.path);
    html! {
        div.field class=[case.changes.get(field.path).is_some().then_some("changed")] {
            label for=(id) { b { (key.replace('_', " ")) } " " span.faint { (help) } }
            input #(id) name=(id) value=(field.value) data-was=(if case.changes.get(field.path).is_some() { "" } else { field.value }) autocomplete="off" spellcheck="false" aria-describedby={ (id) ".note" };
            span.faint.small #{ (id) ".note" } { (field.note) }
        }
    }
}
