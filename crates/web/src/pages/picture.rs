//! A picture with its numbers: drawn by the one writer, with a cross-hair, a range of depth to look at closer, the
//! numbers as a table, and both to save.

use crate::ask::{Ask, Case, Reply};
use maud::{Markup, PreEscaped, html};
use rigwright_papers::figure::{Figure, csv, number, numbers, svg_in_page};

/// The range of depth that the address asks for, in the figure's own unit.
pub(crate) fn range(ask: &Ask) -> Option<(f64, f64)> {
    let end = |key: &str| ask.get(key)?.trim().parse::<f64>().ok().filter(|depth| depth.is_finite());
    match (end("from"), end("to")) {
        (None, None) => None,
        (from, to) => Some((from.unwrap_or(0.0), to.unwrap_or(f64::MAX))).filter(|(from, to)| from < to),
    }
}

/// Where a figure is shown.
pub(crate) struct Shown<'a> {
    /// Path of the page.
    pub(crate) path: &'a str,
    /// Path of its numbers.
    pub(crate) table: &'a str,
    /// What the address holds besides the case.
    pub(crate) more: &'a [(&'a str, &'a str)],
}

/// A figure on its page.
pub(crate) fn picture(ask: &Ask, case: &Case, figure: &Figure, place: &Shown<'_>) -> Markup {
    let Shown { path, table, more } = *place;
    let shown = match range(ask) {
        Some((from, to)) => figure.between(from, to),
        None => figure.clone(),
    };
    let range_text = |key: &str| ask.get(key).unwrap_or_default();
    let mut saved = more.to_vec();
    saved.extend(["from", "to"].into_iter().filter_map(|key| Some((key, ask.get(key)?))));
    let numbers = numbers(&shown);
    html! {
        figure.picture data-numbers="numbers" {
            // Drawn by our own writer, which escapes every name.
            (PreEscaped(svg_in_page(&shown, "picture")))
            figcaption.acts {
                form.range method="get" action=(path) {
                    (hidden(case, more))
                    label { "from " input name="from" value=(range_text("from")) inputmode="decimal" size="6"; }
                    label { " to " input name="to" value=(range_text("to")) inputmode="decimal" size="6"; " " (figure.down.unit) }
                    button { "Draw this depth" }
                }
                a href=(case.url(table, &saved)) { "Numbers as CSV" }
                button type="button" hidden data-png=(file_name(&figure.title)) { "Picture as PNG" }
            }
        }
        details {
            summary { "The numbers of this picture" }
            div.scroll tabindex="0" role="region" aria-label="numbers of the picture" {
                table.numbers #numbers {
                    thead { tr { @for head in &numbers.head { th scope="col" { (head) } } } }
                    tbody { @for (down, values) in &numbers.rows {
                        tr data-down=(number(*down)) {
                            th scope="row" { (number(*down)) }
                            @for value in values { td { @if let Some(value) = value { (number(*value)) } } }
                        }
                    } }
                }
            }
        }
    }
}

/// The case as hidden fields, for a form that asks for more of it.
pub(crate) fn hidden(case: &Case, more: &[(&str, &str)]) -> Markup {
    html! {
        input type="hidden" name="well" value=(case.well);
        @for (key, value) in more { input type="hidden" name=(key) value=(value); }
        @for (path, value) in case.changes.iter() { input type="hidden" name={ "if." (path) } value=(value); }
        @for kept in &case.kept { input type="hidden" name="kept" value=(crate::ask::written(kept)); }
    }
}

/// The numbers to save.
pub(crate) fn saved(ask: &Ask, figure: &Figure) -> Reply {
    let shown = match range(ask) {
        Some((from, to)) => figure.between(from, to),
        None => figure.clone(),
    };
    Reply::File { kind: "text/csv; charset=utf-8", name: Some(format!("{}.csv", file_name(&figure.title))), body: csv(&shown) }
}

/// A title as the name of a file.
fn file_name(title: &str) -> String {
    let plain: String = title.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { ' ' }).collect();
    plain.split_whitespace().collect::<Vec<_>>().join("-")
}
