//! Tests and drills that fall due, as text and as JSON.

use crate::text::{Style, Text};
use jiff::civil::Date;
use rigwright_margins::due::{DueList, Standing};
use rigwright_well::Fit;

/// What every list of these carries.
pub(crate) const CAUTION: &str =
    "Rules change and approvals differ: verify the current text. A day on record is no proof of a passed test.";
/// What is said where no rule is known.
pub(crate) const NOTHING: &str = "The well file names no jurisdiction whose rules are known: nothing is shown as met. Its own rules, the operator's and the contractor's hold.";

/// What falls due on a day.
pub fn due(fit: &Fit, list: &DueList, day: Date) -> Text {
    let mut text = Text::default();
    text.plain(format!("{} on {}: tests and drills due on {day}", fit.well.name, fit.rig.name));
    text.rule();
    let named = fit.well.jurisdiction.as_deref().unwrap_or("none is named");
    match list.jurisdiction {
        Some(jurisdiction) => text.hanging(16, "jurisdiction".into(), jurisdiction.name),
        None => {
            text.hanging(16, "jurisdiction".into(), named);
            text.paragraph(0, Style::Strong, NOTHING);
        }
    }
    for due in &list.due {
        text.blank();
        let (word, style) = standing(due.standing);
        text.line([crate::text::Span::new(format!("{}: {word}", due.rule.title), style)]);
        let day = |date: Option<Date>| date.map_or_else(|| "not on record".to_owned(), |date| date.to_string());
        let every = format!("{}; every {} days; due by {}", day(due.last), due.rule.days, day(due.next));
        text.hanging(16, "  last".into(), &every);
        text.hanging(16, "  passed when".into(), due.rule.criterion);
        text.hanging(16, "  written in".into(), &format!("{} ({})", due.rule.citation, due.rule.read));
    }
    if !list.beside.is_empty() {
        text.blank();
        text.heading("on record, with no known rule beside it");
        for (what, date) in &list.beside {
            text.hanging(34, format!("  {what}").into(), &date.to_string());
        }
    }
    text.blank();
    text.heading("caution");
    text.plain(CAUTION);
    text
}

pub(crate) fn standing(standing: Standing) -> (String, Style) {
    match standing {
        Standing::InTime(0) => ("DUE TODAY".to_owned(), Style::Strong),
        Standing::InTime(days) => (format!("in time, {days} days left"), Style::Plain),
        Standing::Overdue(days) => (format!("OVERDUE by {days} days"), Style::Strong),
        Standing::NeverRecorded => ("NEVER RECORDED".to_owned(), Style::Strong),
        Standing::AfterTheDay => ("on record only after this day".to_owned(), Style::Strong),
    }
}
