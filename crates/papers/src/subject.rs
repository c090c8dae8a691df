//! What a paper is about, and how its parts are named on every paper alike.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use rigwright_margins::{Asked, Judged, Place, Remedy, Review, Scope, Spoilt, Verdict};
use rigwright_units::{Kind, System, show, show_down, show_up};
use rigwright_well::{Fit, Operation, PartKind};
use rigwright_wellfile::{Ease, Finding, Provenance, nozzles_text};

/// A review with all that a paper of it tells.
pub struct Subject<'a> {
    /// Name of the well file as the user gave it.
    pub file: &'a str,
    /// Name of the rig file, where the user named one beside the well file.
    pub rig_file: Option<&'a str>,
    /// The well and the rig.
    pub fit: &'a Fit,
    /// Where each value comes from.
    pub provenance: &'a Provenance,
    /// What was noticed while reading.
    pub cautions: &'a [Finding],
    /// The review.
    pub review: &'a Review,
    /// The moment for which it is made.
    pub as_of: Timestamp,
    /// The system of units that it is printed in.
    pub units: System,
}

impl Subject<'_> {
    /// A value in the paper's units.
    pub(crate) fn show(&self, value: f64, kind: Kind) -> String {
        show(value, kind, self.units)
    }

    /// A depth in the paper's units.
    pub(crate) fn depth(&self, depth: f64) -> String {
        show(depth, Kind::Depth, self.units)
    }

    /// Name of a section, or of the rig where a question is asked of the whole.
    pub(crate) fn section(&self, section: Option<usize>) -> &str {
        section_name(self.fit, section)
    }

    /// "pulling out, bit at 7,190 ft of 11,000 ft".
    pub(crate) fn situation(&self, asked: &Asked) -> String {
        situation(self.fit, asked, self.units)
    }

    /// A demand and its limit as on paper: the demand rounded up, the limit down.
    pub(crate) fn demand_and_limit(&self, asked: &Asked, judged: &Judged) -> String {
        let kind = asked.question.kind;
        let demand = show_up(judged.demand, kind, self.units);
        let capacity = show_down(judged.limit.capacity, kind, self.units);
        let place = match judged.place {
            Place::Surface => String::new(),
            Place::Depth(depth) => format!(" at {}", self.depth(depth)),
        };
        format!("{demand} of {capacity}{place} ({})", judged.limit.name)
    }

    /// What is left and what was wanted: "26 psi left, 397 psi wanted", "short by 132 psi".
    pub(crate) fn left(&self, asked: &Asked, judged: &Judged) -> String {
        let kind = asked.question.kind;
        let left = judged.left();
        let wanted = show_up(judged.limit.reserve, kind, self.units);
        if left < 0.0 {
            format!("short by {}, {wanted} wanted", show_up(-left, kind, self.units))
        } else {
            format!("{} left, {wanted} wanted", show_down(left, kind, self.units))
        }
    }

    /// A turn of a knob: "mud weight from 11.50 ppg to 11.30 ppg".
    pub(crate) fn turn(&self, remedy: &Remedy) -> String {
        let value = |value: f64| {
            let nozzles = (remedy.knob.kind == Kind::Area).then(|| self.nozzles(remedy, value)).flatten();
            nozzles.unwrap_or_else(|| self.show(value, remedy.knob.kind))
        };
        format!("{} from {} to {}", remedy.knob.name, value(remedy.from), value(remedy.to))
    }

    fn nozzles(&self, remedy: &Remedy, flow_area: f64) -> Option<String> {
        let section = self.fit.well.sections.get(remedy.section?)?;
        let bit = section.string.iter().find(|part| part.kind == PartKind::Bit)?;
        nozzles_text(bit.nozzles?, flow_area)
    }

    /// What a turn spoils, the first few of it.
    pub(crate) fn spoils(&self, spoils: &[Spoilt]) -> String {
        const MOST: usize = 3;
        if spoils.is_empty() {
            return "spoils nothing".to_owned();
        }
        let one = |spoilt: &Spoilt| {
            let title = rigwright_margins::question(spoilt.slug).map_or(spoilt.slug, |question| question.title);
            format!("{title} in {} ({} to {})", self.section(spoilt.section), spoilt.before.word(), spoilt.after.word())
        };
        let mut listed: Vec<String> = spoils.iter().take(MOST).map(one).collect();
        if spoils.len() > MOST {
            listed.push(format!("{} more", spoils.len() - MOST));
        }
        format!("would spoil {}", listed.join(", "))
    }

    /// How many answers have this verdict.
    pub(crate) fn count(&self, verdict: Verdict) -> usize {
        self.review.answers.iter().filter(|asked| asked.verdict() == verdict).count()
    }

    /// The moment of the paper.
    pub(crate) fn as_of(&self) -> String {
        as_of(self.as_of)
    }

    /// The command that opens the working of an answer.
    pub(crate) fn explain_command(&self, asked: &Asked) -> String {
        let mut command = format!("rigwright explain {} {}", quoted(self.file), asked.question.slug);
        if let Some(section) = asked.section {
            command.push_str(&format!(" --section {}", quoted(self.section(Some(section)))));
        }
        if let Some(rig) = self.rig_file {
            command.push_str(&format!(" --rig {}", quoted(rig)));
        }
        command
    }
}

/// A moment for print; to the minute, in universal time.
pub(crate) fn as_of(moment: Timestamp) -> String {
    let civil = TimeZone::UTC.to_datetime(moment);
    format!("{} {:02}:{:02} UTC", civil.date(), civil.hour(), civil.minute())
}

/// Name of a section, or of the rig where a question is asked of the whole.
pub(crate) fn section_name(fit: &Fit, section: Option<usize>) -> &str {
    match section.and_then(|index| fit.well.sections.get(index)) {
        Some(section) => &section.name,
        None => "the rig",
    }
}

/// "drilling at 9,300 ft", "pulling out, bit at 7,190 ft of 11,000 ft".
pub(crate) fn situation(fit: &Fit, asked: &Asked, units: System) -> String {
    let depth = |depth: f64| show(depth, Kind::Depth, units);
    let situation = &asked.situation;
    match asked.question.scope {
        Scope::Rig => format!("rig {}", fit.rig.name),
        Scope::Section => format!("end of section at {}", depth(situation.hole_depth)),
        Scope::Situation if situation.on_bottom() => format!("{} at {}", situation.operation.name(), depth(situation.hole_depth)),
        Scope::Situation => {
            let lower_end = if situation.operation == Operation::RunningCasing { "shoe" } else { "bit" };
            let (bit, hole) = (depth(situation.bit_depth), depth(situation.hole_depth));
            format!("{}, {lower_end} at {bit} of {hole}", situation.operation.name())
        }
    }
}

/// How soon a knob can be turned.
pub(crate) const fn ease(ease: Ease) -> &'static str {
    match ease {
        Ease::Today => "today",
        Ease::NextTrip => "next trip",
        Ease::NeedsBuying => "needs buying or a new plan",
    }
}

/// A word of a command line, in quotes where a shell would split or read it.
pub(crate) fn quoted(word: &str) -> String {
    let plain = |c: char| c.is_alphanumeric() || "/._-:=+,%".contains(c);
    if !word.is_empty() && word.chars().all(plain) { word.to_owned() } else { format!("\"{}\"", word.replace('"', "\\\"")) }
}

/// "1 answer", "3 answers".
pub(crate) fn counted(count: usize, one: &str) -> String {
    let end = if count == 1 { "" } else { "s" };
    format!("{count} {one}{end}")
}
