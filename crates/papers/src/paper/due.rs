//! Tests and drills that fall due, to be posted.

use super::kinds::Body;
use super::{Cell, Desk, Part, Table};
use crate::due::{CAUTION, NOTHING, standing};
use crate::text::Style;
use rigwright_margins::due::due;

pub(super) fn body(desk: &Desk) -> Body {
    let (fit, day) = (desk.subject.fit, desk.day());
    let list = due(fit, day);
    let named = list.jurisdiction.map(|jurisdiction| jurisdiction.name).or(fit.well.jurisdiction.as_deref());
    let mut parts = vec![Part::text(format!("Jurisdiction: {}.", named.unwrap_or("none is named")))];
    if list.jurisdiction.is_none() {
        parts.push(Part::strong(NOTHING));
    }
    let mut table = Table::new(
        &format!("due on {day}, by the rules of the jurisdiction"),
        &["**what", "last", ">every", "due by", "**stands", "***passed when", "**written in"],
    );
    for due in &list.due {
        let day = |date: Option<jiff::civil::Date>| date.map_or_else(|| "not on record".to_owned(), |date| date.to_string());
        let (word, style) = standing(due.standing);
        table.row([
            due.rule.title.into(),
            day(due.last).into(),
            format!("{} d", due.rule.days).into(),
            day(due.next).into(),
            Cell { text: word, strong: style == Style::Strong },
            due.rule.criterion.into(),
            format!("{} ({})", due.rule.citation, due.rule.read).into(),
        ]);
    }
    if !table.rows.is_empty() {
        parts.push(Part::Table(table));
    }
    if !list.beside.is_empty() {
        let mut beside = Table::new("on record, with no known rule beside it", &["*what", "last"]);
        for (what, date) in &list.beside {
            beside.row([what.as_str().into(), date.to_string().into()]);
        }
        parts.push(Part::Table(beside));
    }
    let mut done =
        Table::form("done since this list was made", &["**what", "date and time", "pressures or seconds", "**result", "by"]);
    done.rows = vec![vec![Cell::default(); 5]; 6];
    parts.push(Part::Table(done));
    Body { parts, stale: Vec::new(), cautions: vec![CAUTION] }
}
