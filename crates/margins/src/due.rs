//! Tests and drills that fall due, by jurisdiction: intervals, criteria and citations as data, each as far as it was read.
//!
//! Rules change: every row says how it was read, and the current text decides. A jurisdiction that is not known shows nothing as
//! met.

use jiff::civil::Date;
use rigwright_well::Fit;

/// A rule of a jurisdiction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Rule {
    /// Word of the entry table.
    pub what: &'static str,
    /// In plain words.
    pub title: &'static str,
    /// Days from one to the next.
    pub days: i32,
    /// What counts as passed.
    pub criterion: &'static str,
    /// Where it is written.
    pub citation: &'static str,
    /// How it was read.
    pub read: &'static str,
}

/// The rules of a jurisdiction.
#[derive(Clone, Copy, Debug)]
pub struct Jurisdiction {
    /// Words by which a well file may name it.
    pub words: &'static [&'static str],
    /// Its name.
    pub name: &'static str,
    /// The rules.
    pub rules: &'static [Rule],
}

const SEEN: &str = "text seen in a copy, 2026; verify the current text";
const MEMORY: &str = "from memory; verify the current text";

/// Every jurisdiction that is known.
pub static JURISDICTIONS: &[Jurisdiction] = &[
    Jurisdiction {
        words: &["us-ocs", "us ocs", "30 cfr 250", "us outer continental shelf"],
        name: "United States, outer continental shelf",
        rules: &[
            Rule {
                what: "preventer-pressure-test",
                title: "pressure test of the preventers",
                days: 14,
                criterion: "low test first, then high: rams to their rating or the anticipated surface pressure and 500 psi as approved, annular to 70 % of its rating or as approved; each held 5 min",
                citation: "30 CFR 250.737(a) for the interval; criterion after 250.448, superseded",
                read: SEEN,
            },
            Rule {
                what: "blind-shear-pressure-test",
                title: "pressure test of the blind-shear rams",
                days: 30,
                criterion: "as the rams",
                citation: "30 CFR 250.737(a)",
                read: SEEN,
            },
            Rule {
                what: "preventer-function-test",
                title: "function test of the preventers",
                days: 7,
                criterion: "closes and opens from either station, times recorded",
                citation: "30 CFR 250.737(d)",
                read: MEMORY,
            },
            Rule {
                what: "diverter-test",
                title: "pressure test of the diverter, while it is in use",
                days: 7,
                criterion: "200 psi",
                citation: "30 CFR 250.433",
                read: MEMORY,
            },
            Rule {
                what: "well-control-drill",
                title: "well-control drill, each crew",
                days: 7,
                criterion: "timed and recorded in the driller's report",
                citation: "30 CFR 250.711",
                read: MEMORY,
            },
        ],
    },
    Jurisdiction {
        words: &["norway", "norsok d-010"],
        name: "Norway",
        rules: &[
            Rule {
                what: "preventer-pressure-test",
                title: "pressure test of the preventers",
                days: 14,
                criterion: "low 15 to 20 bar for 5 min, then high for 10 min",
                citation: "NORSOK D-010",
                read: MEMORY,
            },
            Rule {
                what: "preventer-function-test",
                title: "function test of the preventers",
                days: 7,
                criterion: "closes and opens, times recorded",
                citation: "NORSOK D-010",
                read: MEMORY,
            },
        ],
    },
];

/// How a rule stands on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Days that are left.
    InTime(i32),
    /// Days by which it is late.
    Overdue(i32),
    /// No day is on record.
    NeverRecorded,
    /// The day on record lies after the day that is asked for.
    AfterTheDay,
}

/// A rule with its last day and how it stands.
#[derive(Clone, Copy, Debug)]
pub struct Due {
    /// The rule.
    pub rule: &'static Rule,
    /// Day on record.
    pub last: Option<Date>,
    /// Day by which it falls due.
    pub next: Option<Date>,
    /// How it stands.
    pub standing: Standing,
}

/// What falls due on a well.
#[derive(Clone, Debug)]
pub struct DueList {
    /// The jurisdiction, where the file names one that is known.
    pub jurisdiction: Option<&'static Jurisdiction>,
    /// Its rules.
    pub due: Vec<Due>,
    /// What is on record and no known rule asks for: word and day.
    pub beside: Vec<(String, Date)>,
}

/// The jurisdiction of that name, if it is known.
pub fn jurisdiction(name: &str) -> Option<&'static Jurisdiction> {
    let name = name.trim().to_lowercase();
    JURISDICTIONS.iter().find(|one| one.words.contains(&name.as_str()))
}

/// What falls due on a day, by the jurisdiction that the well names.
pub fn due(fit: &Fit, day: Date) -> DueList {
    due_by(fit, fit.well.jurisdiction.as_deref().and_then(jurisdiction), day)
}

/// What falls due on a day by the rules of a jurisdiction.
pub fn due_by(fit: &Fit, jurisdiction: Option<&'static Jurisdiction>, day: Date) -> DueList {
    let rules = jurisdiction.map_or(&[][..], |jurisdiction| jurisdiction.rules);
    let last = |what: &str| {
        let days = fit.well.last_done.iter().filter(|done| done.what == what).map(|done| done.date);
        // The latest on or before the day; what lies after it is told as such.
        let (past, later): (Vec<Date>, Vec<Date>) = days.partition(|date| *date <= day);
        past.into_iter().max().or(later.into_iter().min())
    };
    let due = rules.iter().map(|rule| {
        let last = last(rule.what);
        let next = last.and_then(|last| last.checked_add(jiff::Span::new().days(rule.days)).ok());
        let standing = match (last, next) {
            (Some(last), _) if last > day => Standing::AfterTheDay,
            (_, Some(next)) => {
                let left = day.until(next).map_or(0, |span| span.get_days());
                if left >= 0 { Standing::InTime(left) } else { Standing::Overdue(-left) }
            }
            _ => Standing::NeverRecorded,
        };
        Due { rule, last, next, standing }
    });
    let beside = fit.well.last_done.iter().filter(|done| rules.iter().all(|rule| rule.what != done.what));
    DueList { jurisdiction, due: due.collect(), beside: beside.map(|done| (done.what.clone(), done.date)).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;
    use rigwright_well::LastDone;

    fn fit(jurisdiction: Option<&str>, what: &str, day: Date) -> Fit {
        let mut fit = crate::example("ostrick");
        fit.well.jurisdiction = jurisdiction.map(str::to_owned);
        fit.well.last_done = vec![LastDone { what: what.to_owned(), date: day }];
        fit
    }

    fn standing(fit: &Fit, what: &str, day: Date) -> Standing {
        due(fit, day).due.iter().find(|due| due.rule.what == what).unwrap().standing
    }

    /// 30 CFR 250.737(a): 14 days for preventers, 30 for blind-shear rams.
    #[test]
    fn published_intervals_count_whole_days() {
        let tested = fit(Some("US-OCS"), "preventer-pressure-test", date(2026, 11, 1));
        let at = |day| standing(&tested, "preventer-pressure-test", day);
        assert_eq!(at(date(2026, 11, 1)), Standing::InTime(14));
        assert_eq!(at(date(2026, 11, 15)), Standing::InTime(0));
        assert_eq!(at(date(2026, 11, 16)), Standing::Overdue(1));
        assert_eq!(at(date(2026, 10, 31)), Standing::AfterTheDay);
        assert_eq!(standing(&tested, "blind-shear-pressure-test", date(2026, 11, 2)), Standing::NeverRecorded);
        // Over the end of a month, and longer than one.
        let shear = fit(Some("us-ocs"), "blind-shear-pressure-test", date(2026, 1, 20));
        assert_eq!(standing(&shear, "blind-shear-pressure-test", date(2026, 2, 19)), Standing::InTime(0));
        assert_eq!(standing(&shear, "blind-shear-pressure-test", date(2026, 4, 20)), Standing::Overdue(60));
    }

    #[test]
    fn law_an_unknown_jurisdiction_shows_nothing_as_met() {
        for name in [None, Some("Varland")] {
            let list = due(&fit(name, "preventer-pressure-test", date(2026, 11, 1)), date(2026, 11, 2));
            assert!(list.jurisdiction.is_none() && list.due.is_empty());
            assert_eq!(list.beside.len(), 1);
        }
    }
}
