//! Which dated readings and tests a paper rests on: its head names these, and no others.

use super::{Desk, Rest};
use crate::sheet::{Reading, place_name, readings};

/// What was read or tested on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Dated {
    Mud,
    HookLoad,
    SlowRate,
    ShoeTest,
    LastDone,
}

impl Dated {
    /// What a concrete path of the well file holds; `None` for what this list does not know, which is then never left out.
    fn of(path: &str) -> Option<Dated> {
        if path.starts_with("last_done[") {
            return Some(Dated::LastDone);
        }
        let within = path.strip_prefix("section[")?.split_once("].")?.1;
        match within.split('[').next()? {
            "mud" => Some(Dated::Mud),
            "hook_load" => Some(Dated::HookLoad),
            "slow_rate" => Some(Dated::SlowRate),
            "casing" => Some(Dated::ShoeTest),
            _ => None,
        }
    }
}

/// What a kind of paper rests on; `None` for all of it, as a paper does that prints the whole review.
fn rests_on(slug: &str) -> Option<&'static [Dated]> {
    match slug {
        "mud-programme" => Some(&[Dated::Mud, Dated::ShoeTest]),
        "bit-sheet" => Some(&[Dated::Mud, Dated::SlowRate]),
        "power-sheet" => Some(&[]),
        "preventer-test" | "tests-due" => Some(&[Dated::LastDone]),
        "limits-card" | "kill-sheet" => Some(&[Dated::Mud, Dated::SlowRate, Dated::ShoeTest]),
        "line-record" | "running-sheet" | "leak-off-report" => Some(&[Dated::Mud]),
        "trip-sheet" => Some(&[Dated::Mud, Dated::ShoeTest]),
        _ => None,
    }
}

/// The readings for the head of a paper; of one section where it is of one, with the test of the shoe that stands above it.
pub(super) fn rests(desk: &Desk, slug: &str, section: Option<usize>) -> Vec<Rest> {
    let fit = desk.subject.fit;
    let sections = &fit.well.sections;
    let shoe_above = section.and_then(|section| sections[..section].iter().rposition(|above| above.casing.is_some()));
    let bears = |reading: &Reading| {
        let what = Dated::of(&reading.path);
        let wanted = rests_on(slug).is_none_or(|wanted| what.is_none_or(|what| wanted.contains(&what)));
        let of = reading.path.strip_prefix("section[").and_then(|rest| rest.split(']').next()?.parse::<usize>().ok());
        let near = match (section, of) {
            (Some(_), Some(of)) if what == Some(Dated::ShoeTest) => Some(of) == shoe_above,
            (Some(section), Some(of)) => of == section,
            _ => true,
        };
        wanted && near
    };
    let all = readings(desk.subject);
    let bearing: Vec<&Reading> = all.iter().filter(|reading| bears(reading)).collect();
    bearing
        .chunk_by(|before, after| together(before).is_some() && together(before) == together(after))
        .map(|some| rest(desk, some))
        .collect()
}

/// The list to which a hook load belongs: one head does not name each of a dozen.
fn together(reading: &Reading) -> Option<&str> {
    let (list, _) = reading.path.rsplit_once('[')?;
    list.ends_with(".hook_load").then_some(list)
}

/// Readings that are named as one: the first and the last day, and how old the oldest is.
fn rest(desk: &Desk, readings: &[&Reading]) -> Rest {
    let (fit, first) = (desk.subject.fit, readings[0]);
    let oldest = readings.iter().fold(first, |oldest, reading| if reading.date < oldest.date { reading } else { oldest });
    let youngest = readings.iter().fold(first, |youngest, reading| if reading.date > youngest.date { reading } else { youngest });
    let what = match together(first) {
        Some(list) if readings.len() > 1 => {
            format!("{} {}", readings.len(), place_name(fit, list).replacen("hook load", "hook loads", 1))
        }
        _ => name(desk, &first.path).unwrap_or_else(|| place_name(fit, &first.path)),
    };
    if oldest.date == youngest.date {
        return Rest { what, date: oldest.date.to_string(), age: desk.age(oldest.age) };
    }
    Rest { what, date: format!("{} to {}", oldest.date, youngest.date), age: format!("the oldest {}", desk.age(oldest.age)) }
}

/// What its place in the file does not tell: on which casing's shoe a test was made, what was done last.
fn name(desk: &Desk, path: &str) -> Option<String> {
    let well = &desk.subject.fit.well;
    if let Some(index) = path.strip_prefix("last_done[") {
        let index: usize = index.strip_suffix(']')?.parse().ok()?;
        return Some(format!("last {}", well.last_done.get(index)?.what.replace('-', " ")));
    }
    let index: usize = path.strip_prefix("section[")?.strip_suffix("].casing")?.parse().ok()?;
    Some(format!("shoe test of {}", well.sections.get(index)?.casing.as_ref()?.name))
}
