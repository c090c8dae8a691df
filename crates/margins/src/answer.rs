//! What a question can come to: judged against a limit, told without one, missing an input, or not arising.

use std::cmp::Ordering;

/// The answer to a question in one situation. Never skipped in silence; an unknown limit is never infinite.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// A demand held against a limit.
    Judged(Judged),
    /// Figures that the crew wants to know and that no limit judges.
    Told(Vec<Figure>),
    /// Inputs that nobody gave: paths of the entry table, as written there.
    Missing(Vec<&'static str>),
    /// The question does not arise here; why.
    DoesNotArise(&'static str),
}

/// A demand held against a limit. Both are of the question's kind. [SI]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// What is asked of the limit.
    pub demand: f64,
    /// What it is held against.
    pub limit: Limit,
    /// Where it bites.
    pub place: Place,
    /// Where the limit's own scale begins; a share of the limit is counted from here. Nought for most,
    /// the pore pressure for the mud window.
    pub zero: f64,
}

/// A limit: capacity, the wanted reserve on top and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// The demand must not exceed this. A design factor of a code is already inside.
    pub capacity: f64,
    /// What the crew wants left over; greater than zero.
    pub reserve: f64,
    /// What sets the limit: "mast at 10 lines".
    pub name: &'static str,
    /// Source: nameplate, code, test, the user's file.
    pub source: &'static str,
}

/// Where a limit bites.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Place {
    /// At surface or on the rig, at the thing that the limit names.
    Surface,
    /// At a measured depth in the hole. [m]
    Depth(f64),
}

impl Place {
    /// The measured depth, where there is one. [m]
    pub fn depth(self) -> Option<f64> {
        match self {
            Place::Surface => None,
            Place::Depth(depth) => Some(depth),
        }
    }
}

/// A figure told without a limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// Its value. [SI]
    pub value: f64,
    /// Its kind.
    pub kind: rigwright_units::Kind,
}

impl Judged {
    /// What is left, counted in wanted reserves: below nought the limit is passed, below one the reserve is eaten into.
    /// This makes a mast, a mud weight and an engine comparable.
    pub fn room(&self) -> f64 {
        self.left() / self.limit.reserve
    }

    /// What is left of the capacity; below nought, what is wanting. [SI]
    pub fn left(&self) -> f64 {
        self.limit.capacity - self.demand
    }

    /// Demand as a share of capacity, both counted from the limit's own zero. For display only.
    pub fn share(&self) -> f64 {
        (self.demand - self.zero) / (self.limit.capacity - self.zero)
    }
}

/// The word for an answer. Ordered from worst to best.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Verdict {
    /// The limit is passed.
    Short,
    /// An input is missing.
    Unknown,
    /// The limit is kept but the wanted reserve is not.
    Thin,
    /// The limit and the wanted reserve are kept, under these inputs and assumptions.
    Holds,
    /// A figure without a limit.
    Told,
    /// The question does not arise.
    DoesNotArise,
}

impl Verdict {
    /// The word on screen, on paper and in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            Verdict::Short => "short",
            Verdict::Unknown => "unknown",
            Verdict::Thin => "thin",
            Verdict::Holds => "holds",
            Verdict::Told => "told",
            Verdict::DoesNotArise => "does not arise",
        }
    }
}

impl Answer {
    /// The word for it.
    pub fn verdict(&self) -> Verdict {
        self.standing().0
    }

    /// How it stands among others, worst first: its word, then its room.
    pub(crate) fn standing(&self) -> (Verdict, f64) {
        match self {
            Answer::Judged(judged) => {
                let room = judged.room();
                // A room that is not a number can only come from a fault of ours: it must not look as if it held.
                let verdict = if room >= 1.0 {
                    Verdict::Holds
                } else if room >= 0.0 {
                    Verdict::Thin
                } else if room < 0.0 {
                    Verdict::Short
                } else {
                    Verdict::Unknown
                };
                (verdict, room)
            }
            Answer::Told(_) => (Verdict::Told, f64::INFINITY),
            Answer::Missing(_) => (Verdict::Unknown, f64::INFINITY),
            Answer::DoesNotArise(_) => (Verdict::DoesNotArise, f64::INFINITY),
        }
    }

    /// The judgement, where there is one.
    pub fn judged(&self) -> Option<&Judged> {
        match self {
            Answer::Judged(judged) => Some(judged),
            _ => None,
        }
    }

    /// Room of a judged answer.
    pub fn room(&self) -> Option<f64> {
        self.judged().map(Judged::room)
    }

    /// Worst first: by verdict, then by room. Total, so that the order never depends on threads.
    pub fn rank(&self, other: &Answer) -> Ordering {
        by_standing(self.standing(), other.standing())
    }
}

/// Worst first, by word, then by room.
pub(crate) fn by_standing(one: (Verdict, f64), other: (Verdict, f64)) -> Ordering {
    one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))
}

/// The worst of several judgements of one question, the first of equals.
pub fn worst(judgements: impl IntoIterator<Item = Judged>) -> Option<Judged> {
    judgements.into_iter().fold(None, worse)
}

/// The worse of the worst so far and the next, the first of equals.
pub(crate) fn worse(worst: Option<Judged>, next: Judged) -> Option<Judged> {
    Some(match worst {
        Some(worst) if next.room() < worst.room() => next,
        Some(worst) => worst,
        None => next,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(demand: f64) -> Answer {
        let limit = Limit { capacity: 100.0, reserve: 10.0, name: "mast", source: "nameplate" };
        Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
    }

    #[test]
    fn law_the_verdict_flips_exactly_at_its_limit() {
        assert_eq!(at(90.0).verdict(), Verdict::Holds);
        assert_eq!(at(90.0f64.next_up()).verdict(), Verdict::Thin);
        assert_eq!(at(100.0).verdict(), Verdict::Thin);
        assert_eq!(at(100.0f64.next_up()).verdict(), Verdict::Short);
        assert_eq!(at(f64::NAN).verdict(), Verdict::Unknown);
    }

    #[test]
    fn law_rank_puts_the_worst_first() {
        let mut answers = [
            at(50.0),
            Answer::DoesNotArise("no casing"),
            at(95.0),
            Answer::Missing(vec!["kick.volume"]),
            at(120.0),
            at(101.0),
            Answer::Told(vec![]),
        ];
        answers.sort_by(Answer::rank);
        let words: Vec<_> = answers.iter().map(|answer| answer.verdict().word()).collect();
        assert_eq!(words, ["short", "short", "unknown", "thin", "holds", "told", "does not arise"]);
        assert!(answers[0].room() < answers[1].room());
    }
}
