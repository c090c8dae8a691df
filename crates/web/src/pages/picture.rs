//! A picture with its numbers: drawn by the one writer, with a cross-hair, a range of depth to look at closer, the
//! numbers as a table, and both to save.

use crate::ask::{Ask, Case, Reply};
use maud::{Markup, PreEscaped, html};
use rigwright_papers::figure::{Bars, Drawing, Figure, csv, number, numbers, svg_in_page};

/// The range that the address asks for, in the figure's own unit.
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

/// A drawing on its page.
pub(crate) fn drawing(ask: &Ask, case: &Case, drawing: &Drawing, place: &Shown<'_>) -> Markup {
    match drawing {
        Drawing::Figure(figure) => picture(ask, case, figure, place),
        Drawing::Bars(bars) => side_by_side(case, bars, place),
    }
}

/// A figure on its page, with a range to look at closer.
pub(crate) fn picture(ask: &Ask, case: &Case, figure: &Figure, place: &Shown<'_>) -> Markup {
    let Shown { path, table, more } = *place;
    let shown = match range(ask) {
        Some((from, to)) => figure.between(from, to),
        None => figure.clone(),
    };
    let range_text = |key: &str| ask.get(key).unwrap_or_default();
    let mut saved = more.to_vec();
    saved.extend(["from", "to"].into_iter().filter_map(|key| Some((key, ask.get(key)?))));
    let acts = html! {
        form.range method="get" action=(path) {
            (hidden(case, more))
            label { (figure.along.label) " from " input name="from" value=(range_text("from")) inputmode="decimal" size="6"; }
            label { " to " input name="to" value=(range_text("to")) inputmode="decimal" size="6"; " " (figure.along.unit) }
            button { "Draw this range" }
        }
        a href=(case.url(table, &saved)) { "Numbers as CSV" }
    };
    plain(&shown, "picture", &acts)
}

/// A figure with its numbers; `id` sets it apart from others on the page.
pub(crate) fn plain(figure: &Figure, id: &str, acts: &Markup) -> Markup {
    let numbers = numbers(figure);
    html! {
        figure.picture data-numbers={ (id) "-numbers" } {
            // Drawn by our own writer, which escapes every name.
            (PreEscaped(svg_in_page(figure, id)))
            figcaption.acts {
                (acts)
                button.quietly type="button" hidden data-png=(file_name(&figure.title)) { "Picture as PNG" }
            }
        }
        details {
            summary { "The numbers of this picture" }
            div.scroll tabindex="0" role="region" aria-label={ "numbers: " (figure.title) } {
                table.numbers #{ (id) "-numbers" } {
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

/// Bars with their numbers.
fn side_by_side(case: &Case, bars: &Bars, place: &Shown<'_>) -> Markup {
    let (heads, rows) = bars.table();
    html! {
        figure.picture {
            (PreEscaped(bars.svg_in_page("picture")))
            figcaption.acts {
                a href=(case.url(place.table, place.more)) { "Numbers as CSV" }
                button.quietly type="button" hidden data-png=(file_name(&bars.title)) { "Picture as PNG" }
            }
        }
        details {
            summary { "The numbers of this picture" }
            div.scroll tabindex="0" role="region" aria-label="numbers of the picture" {
                table.numbers {
                    thead { tr { @for head in &heads { th scope="col" { (head) } } } }
                    tbody { @for row in &rows { tr { @for cell in row { td { (cell) } } } } }
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
    saved_as(&figure.title, csv(&shown))
}

/// A table to save under the name of its picture.
pub(crate) fn saved_as(title: &str, body: String) -> Reply {
    Reply::File { kind: "text/csv; charset=utf-8", name: Some(format!("{}.csv", file_name(title))), body: body.into_bytes() }
}

/// A title as the name of a file.
pub(crate) fn file_name(title: &str) -> String {
    let plain: String = title.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { ' ' }).collect();
    plain.split_whitespace().collect::<Vec<_>>().join("-")
}
