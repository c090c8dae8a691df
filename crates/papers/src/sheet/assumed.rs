//! What a review rests on besides what the user wrote: defaults with their sources, what the methods leave out, and
//! the dated readings with their age.

use super::HANG;
use crate::subject::{Subject, counted};
use crate::text::{Align, Style, Text};
use jiff::civil::Date;
use jiff::tz::TimeZone;
use rigwright_margins::Answer;
use rigwright_well::Fit;
use rigwright_wellfile::{Form, Origin};

/// A value that nobody wrote, with every place where it stands.
pub(crate) struct Assumed {
    /// Path in the entry table: `section[].tripping.pulling_speed`.
    pub(crate) path: &'static str,
    /// The value.
    pub(crate) value: String,
    /// Where it comes from.
    pub(crate) source: &'static str,
    /// Concrete paths: `section[0].tripping.pulling_speed`.
    pub(crate) at: Vec<String>,
}

/// The values that nobody wrote, equal ones of one entry taken together.
pub(crate) fn assumed(subject: &Subject) -> Vec<Assumed> {
    let mut all: Vec<Assumed> = Vec::new();
    for (path, entry, origin) in subject.provenance.entries() {
        let Origin::Defaulted { text: value, source } = origin else { continue };
        match all.iter_mut().find(|known| known.path == entry.path && known.value == *value && known.source == *source) {
            Some(known) => known.at.push(path.to_owned()),
            None => all.push(Assumed { path: entry.path, value: value.clone(), source, at: vec![path.to_owned()] }),
        }
    }
    all
}

/// What a method takes for granted, with the questions that rest on it.
pub(crate) struct Method {
    pub(crate) text: &'static str,
    /// Slug and title of each.
    pub(crate) questions: Vec<(&'static str, &'static str)>,
}

/// What the methods of the questions that arise take for granted.
pub(crate) fn methods(subject: &Subject) -> Vec<Method> {
    let mut all: Vec<Method> = Vec::new();
    let mut last = "";
    for asked in &subject.review.answers {
        // Answers to one question stand together; that of one section tells its methods.
        if matches!(asked.answer, Answer::DoesNotArise(_)) || asked.question.slug == last {
            continue;
        }
        last = asked.question.slug;
        let question = (asked.question.slug, asked.question.title);
        for text in asked.question.assumes {
            match all.iter_mut().find(|known| known.text == *text) {
                Some(known) if known.questions.contains(&question) => {}
                Some(known) => known.questions.push(question),
                None => all.push(Method { text, questions: vec![question] }),
            }
        }
    }
    all
}

/// A dated reading or test.
pub(crate) struct Reading {
    /// Concrete path of what was read: `section[1].mud`.
    pub(crate) path: String,
    /// The day.
    pub(crate) date: Date,
    /// Age in days at the moment of the paper; negative when the day is yet to come.
    pub(crate) age: i32,
}

/// The dated readings in the order of the files.
pub(crate) fn readings(subject: &Subject) -> Vec<Reading> {
    let today = TimeZone::UTC.to_datetime(subject.as_of).date();
    let dated = subject.provenance.entries().filter(|(_, entry, _)| entry.form == Form::Date);
    let reading = |(path, _, origin): (&str, _, &Origin)| {
        let Origin::Given { text, .. } = origin else { return None };
        let date: Date = text.trim().trim_matches(['"', '\'']).parse().ok()?;
        // Days between two civil dates cannot overflow: the calendar is shorter.
        let age = date.until(today).map_or(0, |span| span.get_days());
        let path = path.rsplit_once('.').map_or(path, |(table, _)| table).to_owned();
        Some(Reading { path, date, age })
    };
    dated.filter_map(reading).collect()
}

/// The section or layer in which a concrete path lies.
fn owner(fit: &Fit, path: &str) -> String {
    let number = |list: &str| path.strip_prefix(list)?.split(']').next()?.parse::<usize>().ok();
    let section = number("section[").and_then(|index| fit.well.sections.get(index)).map(|section| section.name.clone());
    let layer = number("formation[").and_then(|index| fit.well.formations.get(index)).map(|layer| layer.name.clone());
    section.or(layer).unwrap_or_default()
}

/// A concrete path in words: `section[1].slow_rate[0]` is "slow rate 1 of 12 1/4 in".
pub(crate) fn place_name(fit: &Fit, path: &str) -> String {
    let (name, rest) = match path.strip_prefix("section[").and_then(|rest| rest.split_once(']')) {
        Some((index, rest)) => {
            let section = index.parse().ok().and_then(|index: usize| fit.well.sections.get(index));
            (section.map(|section| section.name.as_str()), rest.trim_start_matches('.'))
        }
        None => (None, path),
    };
    let mut words = String::new();
    for (index, part) in rest.split('[').enumerate() {
        match part.split_once(']') {
            Some((number, tail)) if index > 0 => {
                let number = number.parse().map_or(0, |number: usize| number + 1);
                words.push_str(&format!(" {number}{tail}"));
            }
            _ => words.push_str(part),
        }
    }
    let words = words.replace('_', " ");
    match name {
        Some(name) => format!("{words} of {name}"),
        None => words,
    }
}

pub(super) fn assumptions(text: &mut Text, subject: &Subject) {
    text.heading("assumed");
    let readings = readings(subject);
    if !readings.is_empty() {
        let ages: Vec<String> = readings.iter().map(|reading| age(subject, reading)).collect();
        text.hanging(HANG, "dated".into(), &ages.join("; "));
    }
    let assumed = assumed(subject);
    if !assumed.is_empty() {
        text.hanging(HANG, "inputs".into(), "not in the files; write them there to replace these");
        let rows: Vec<Vec<String>> = assumed
            .iter()
            .map(|assumed| {
                let times = match assumed.at.as_slice() {
                    [only] if assumed.path.contains("[]") => owner(subject.fit, only),
                    [_] => String::new(),
                    several => format!("×{}", several.len()),
                };
                vec![assumed.path.to_owned(), times, assumed.value.clone(), assumed.source.to_owned()]
            })
            .collect();
        table_with_sources(text, &rows);
    }
    let methods = methods(subject);
    if !methods.is_empty() {
        text.hanging(HANG, "methods".into(), "what the questions take for granted");
        for method in methods {
            let titles: Vec<&str> = method.questions.iter().map(|(_, title)| *title).collect();
            text.hanging(4, "  ·".into(), &format!("{} ({})", method.text, titles.join(", ")));
        }
    }
    text.blank();
}

/// Rows whose last cell is a sentence that may need several lines.
fn table_with_sources(text: &mut Text, rows: &[Vec<String>]) {
    let wide =
        |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| crate::text::width(cell)).max().unwrap_or(0);
    let widths = [wide(0), wide(1), wide(2)];
    let indent = 2 + widths.iter().map(|wide| wide + 2).sum::<usize>();
    for row in rows {
        let cells: Vec<String> = row.iter().zip(widths).map(|(cell, wide)| crate::text::pad(cell, wide, Align::Left)).collect();
        let label = format!("  {}", cells.join("  "));
        match row.last() {
            // Where little room is left beside the values, the source goes below them.
            Some(source) if indent > 70 => {
                text.plain(label.trim_end());
                text.paragraph(6, Style::Faint, source);
            }
            Some(source) => text.hanging(indent, label.into(), source),
            None => {}
        }
    }
}

fn age(subject: &Subject, reading: &Reading) -> String {
    let what = place_name(subject.fit, &reading.path);
    let when = match reading.age {
        0 => "today".to_owned(),
        days if days > 0 => format!("{} old", counted(days.unsigned_abs() as usize, "day")),
        days => format!("in {}", counted(days.unsigned_abs() as usize, "day")),
    };
    format!("{what} {} ({when})", reading.date)
}
