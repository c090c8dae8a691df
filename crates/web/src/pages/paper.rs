//! One paper as markup: the same value that is set for print, to be read here.

use crate::pages::picture;
use maud::{Markup, html};
use rigwright_papers::paper::{Fact, Head, Paper, Part, Table};

/// A paper, without its title.
pub(crate) fn paper(paper: &Paper) -> Markup {
    html! {
        article.paper {
            @if !paper.stale.is_empty() {
                section.stale aria-label="stale inputs" {
                    strong { "STALE, not to be used" }
                    ul { @for why in &paper.stale { li { (why) } } }
                }
            }
            (head(&paper.head))
            @for (index, part) in paper.parts.iter().enumerate() { (one(part, index)) }
            h2 { "Cautions" }
            ul { @for caution in paper.cautions.iter().skip(usize::from(paper.control)) { li { (caution) } } }
        }
    }
}

fn head(head: &Head) -> Markup {
    html! {
        p { b { (head.well) } " on " b { (head.rig) } ". Depths from " (head.datum) "; units " (head.units) "." }
        p.faint { "As of " (head.as_of) "; inputs " (head.fingerprint) "; Rigwright " (head.version) "." }
        @if !head.rests_on.is_empty() {
            p.faint {
                "Rests on "
                @for (index, rest) in head.rests_on.iter().enumerate() {
                    @if index > 0 { "; " }
                    (rest.what) " " (rest.date) " (" (rest.age) ")"
                }
                "."
            }
        }
        @for notice in &head.notices { p { "Noticed: " (notice) } }
    }
}

fn one(part: &Part, index: usize) -> Markup {
    let none = html! {};
    html! {
        @match part {
            Part::Heading { text, level: 1, .. } => h2 { (text) },
            Part::Heading { text, .. } => h3 { (text) },
            Part::Text { text, strong: true } => p { strong { (text) } },
            Part::Text { text, .. } => p { (text) },
            Part::Facts { facts } => (values(facts)),
            Part::Table(table) => (rows(table)),
            Part::Figure { caption, figure } => {
                p { (caption) }
                (picture::plain(figure, &format!("figure-{index}"), &none))
            },
            // A screen scrolls: what saves height on a sheet of paper stands below each other here.
            Part::Beside { columns } => { @for part in columns.iter().flatten() { (one(part, index)) } },
            Part::Signatures { lines } => {
                dl.sign { @for line in lines { div { dt { (line) } dd {} } } }
            },
        }
    }
}

fn values(facts: &[Fact]) -> Markup {
    html! {
        dl.told { @for fact in facts {
            div { dt { (fact.label) } dd { b { (fact.value) } @if !fact.note.is_empty() { " " span.faint { (fact.note) } } } }
        } }
    }
}

fn rows(table: &Table) -> Markup {
    let words = |column: usize| table.columns.get(column).is_some_and(|column| !column.number).then_some("words");
    html! {
        div.scroll tabindex="0" role="region" aria-label=(table.caption) {
            table.numbers.form[table.form] {
                caption { (table.caption) }
                thead { tr { @for (index, column) in table.columns.iter().enumerate() { th scope="col" class=[words(index)] { (column.head) } } } }
                tbody { @for row in &table.rows {
                    tr { @for (index, cell) in row.iter().enumerate() {
                        td class=[words(index)] { @if cell.strong { strong { (cell.text) } } @else { (cell.text) } }
                    } }
                } }
            }
        }
    }
}
