//! Tests and drills that fall due.

use super::{FORMAT, print};
use jiff::civil::Date;
use rigwright_margins::due::{DueList, Standing};
use rigwright_well::Fit;
use serde::Serialize;

#[derive(Serialize)]
struct Document<'a> {
    format: u32,
    well: &'a str,
    day: String,
    jurisdiction: Option<&'static str>,
    due: Vec<DueJson>,
    beside: Vec<BesideJson<'a>>,
}

#[derive(Serialize)]
struct DueJson {
    what: &'static str,
    title: &'static str,
    days: i32,
    last: Option<String>,
    due_by: Option<String>,
    standing: &'static str,
    days_left: Option<i32>,
    criterion: &'static str,
    citation: &'static str,
    read: &'static str,
}

#[derive(Serialize)]
struct BesideJson<'a> {
    what: &'a str,
    last: String,
}

/// What falls due on a day.
pub fn due(fit: &Fit, list: &DueList, day: Date) -> String {
    let rows = list.due.iter().map(|due| {
        let (standing, days_left) = match due.standing {
            Standing::InTime(days) => ("in time", Some(days)),
            Standing::Overdue(days) => ("overdue", Some(-days)),
            Standing::NeverRecorded => ("never recorded", None),
            Standing::AfterTheDay => ("after the day", None),
        };
        DueJson {
            what: due.rule.what,
            title: due.rule.title,
            days: due.rule.days,
            last: due.last.map(|date| date.to_string()),
            due_by: due.next.map(|date| date.to_string()),
            standing,
            days_left,
            criterion: due.rule.criterion,
            citation: due.rule.citation,
            read: due.rule.read,
        }
    });
    print(&Document {
        format: FORMAT,
        well: &fit.well.name,
        day: day.to_string(),
        jurisdiction: list.jurisdiction.map(|one| one.name),
        due: rows.collect(),
        beside: list.beside.iter().map(|(what, date)| BesideJson { what, last: date.to_string() }).collect(),
    })
}
