//! What to turn, and to where: knobs of one job found together, each proposal reviewed again, whole.
//!
//! A remedy turns one knob for one answer; a proposal looks at a job: the circulating system of a section, the lines of the
//! rig, the speed of a trip. The steps form a chain: each stands on those before it that were taken over. Every search runs
//! over the knobs' own steps, in a fixed order and with a bound on what it asks, so that the same files give the same proposal.

mod circulating;
mod ground;
mod hoisting;
mod jets;
mod probes;
mod sets;
mod string;

#[cfg(test)]
mod tests;

pub use jets::{Jets, JetsAim, best_jets};

use crate::{Figure, Verdict};
use ground::Ground;
use probes::Grid;
use rigwright_units::Kind;
use rigwright_well::{Fit, Operation, PartKind, WearClass};
use rigwright_wellfile::Ease;

/// Levels of room that a search tries, from all that is wanted down to the bare limits. [reserves]
const LEVELS: [f64; 3] = [1.0, 0.5, 0.0];

/// What a step of a proposal is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Job {
    /// Mud weight, flow, pumps, liners and nozzles of a section together.
    Circulating,
    /// Flow and nozzles for the most impact of the jets.
    NozzlesForImpact,
    /// Flow and nozzles for the most hydraulic power at the bit.
    NozzlesForPower,
    /// Lines strung for drilling and tripping.
    Lines,
    /// Lines strung for running the casing of a section.
    LinesForCasing,
    /// Grade and class of the drill pipe of a section.
    Pipe,
    /// Length of the collars of a section.
    Collars,
    /// Fastest pulling out.
    PullingSpeed,
    /// Fastest running in.
    RunningSpeed,
    /// Fastest running of casing.
    CasingSpeed,
    /// Pull that is left when the string sticks.
    Overpull,
    /// Generator sets on line.
    Sets,
}

impl Job {
    /// In plain words, lower case.
    pub const fn name(self) -> &'static str {
        match self {
            Job::Circulating => "mud, flow, pumps and nozzles together",
            Job::NozzlesForImpact => "flow and nozzles for impact",
            Job::NozzlesForPower => "flow and nozzles for power at the bit",
            Job::Lines => "lines for drilling and tripping",
            Job::LinesForCasing => "lines for running casing",
            Job::Pipe => "drill pipe",
            Job::Collars => "collars",
            Job::PullingSpeed => "fastest pulling out",
            Job::RunningSpeed => "fastest running in",
            Job::CasingSpeed => "fastest running of casing",
            Job::Overpull => "overpull possible",
            Job::Sets => "generator sets on line",
        }
    }

    /// As an address in JSON: kebab case.
    pub const fn slug(self) -> &'static str {
        match self {
            Job::Circulating => "circulating",
            Job::NozzlesForImpact => "nozzles-for-impact",
            Job::NozzlesForPower => "nozzles-for-power",
            Job::Lines => "lines",
            Job::LinesForCasing => "lines-for-casing",
            Job::Pipe => "pipe",
            Job::Collars => "collars",
            Job::PullingSpeed => "pulling-speed",
            Job::RunningSpeed => "running-speed",
            Job::CasingSpeed => "casing-speed",
            Job::Overpull => "overpull",
            Job::Sets => "sets",
        }
    }
}

/// A setting of a knob.
#[derive(Clone, Debug, PartialEq)]
pub enum Setting {
    /// A figure of the knob's kind. [SI]
    Value(f64),
    /// Drill pipe of a grade and a class.
    Pipe {
        /// Name of the grade; `None` for a yield strength of its own.
        grade: Option<&'static str>,
        /// Yield strength. [Pa]
        yield_strength: f64,
        /// Class of wear.
        class: WearClass,
    },
}

/// What is turned beside the knobs of the entry table.
const PIPE: &str = "drill pipe";
const COLLARS: &str = "length of the collars";

/// One turn of one knob.
#[derive(Clone, Debug, PartialEq)]
pub struct Turn {
    /// Name of the knob, or of what has to be bought.
    pub knob: &'static str,
    /// Kind of its values.
    pub kind: Kind,
    /// The section; `None` for the rig.
    pub section: Option<usize>,
    /// Where it stands.
    pub from: Setting,
    /// Where it is to be put.
    pub to: Setting,
    /// How soon that can be done.
    pub ease: Ease,
}

impl Turn {
    /// Turns it in a fit.
    pub fn apply(&self, fit: &mut Fit) {
        let section = self.section.unwrap_or(0);
        if let (Some(knob), Setting::Value(to)) = (rigwright_wellfile::knob(self.knob), &self.to) {
            return (knob.set)(fit, section, *to);
        }
        let Some(section) = fit.well.sections.get_mut(section) else { return };
        match self.to {
            Setting::Value(to) => {
                if let Some(collars) = section.string.iter_mut().find(|part| part.kind == PartKind::Collar) {
                    collars.length = to;
                }
            }
            Setting::Pipe { yield_strength, class, .. } => {
                for part in section.string.iter_mut().filter(|part| part.kind == PartKind::DrillPipe) {
                    (part.yield_strength, part.class) = (Some(yield_strength), class);
                }
            }
        }
    }
}

/// An answer that changes its verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// The question.
    pub slug: &'static str,
    /// The section; `None` for the rig as a whole.
    pub section: Option<usize>,
    /// What it was.
    pub before: Verdict,
    /// What it becomes.
    pub after: Verdict,
}

/// What a search came to.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// What stands today is the answer; the worst verdict of the job with it.
    AsItIs(Verdict),
    /// The turns lead to this worst verdict of the job.
    Turns(Verdict),
    /// Nothing on the knobs' steps keeps all limits: see `relax`.
    Nothing,
    /// Only figures.
    Told,
    /// Some limit of the job could not be judged for want of these inputs, paths of the entry table; nothing is turned.
    Unknown(Vec<&'static str>),
    /// The search asked as much as it may and gave up.
    GaveUp,
}

impl From<Verdict> for Outcome {
    /// What stands, with this verdict.
    fn from(verdict: Verdict) -> Outcome {
        Outcome::AsItIs(verdict)
    }
}

/// A limit that stands in the way, where nothing keeps all.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relax {
    /// The question that sets it.
    pub slug: &'static str,
    /// The operation in which it does.
    pub operation: Operation,
    /// Room that all the others can reach together when this one, and those listed before it, are let go. [reserves]
    pub reaches: f64,
    /// What this one is short of then: demand less capacity, of the question's kind. [SI]
    pub short_by: f64,
    /// Kind of the question.
    pub kind: Kind,
}

/// One step of a proposal.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What it is about.
    pub job: Job,
    /// The section; `None` for the rig.
    pub section: Option<usize>,
    /// What the search came to.
    pub outcome: Outcome,
    /// What to turn.
    pub turns: Vec<Turn>,
    /// What it gives, in figures.
    pub figures: Vec<Figure>,
    /// Answers that get better, against the step before.
    pub improves: Vec<Change>,
    /// Answers that get worse.
    pub spoils: Vec<Change>,
    /// Which limits to relax, the one that frees most first.
    pub relax: Vec<Relax>,
    /// Whether the steps that follow stand on this one.
    pub taken: bool,
}

impl Step {
    fn new(job: Job, section: Option<usize>, outcome: Outcome) -> Step {
        let (turns, figures, improves, spoils, relax) = (Vec::new(), Vec::new(), Vec::new(), Vec::new(), Vec::new());
        Step { job, section, outcome, turns, figures, improves, spoils, relax, taken: false }
    }
}

/// What to turn, job by job, and what all of it does together.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// Steps in the order in which they stand on each other.
    pub steps: Vec<Step>,
    /// Answers that get better when all steps that were taken over are taken.
    pub improves: Vec<Change>,
    /// Answers that get worse then.
    pub spoils: Vec<Change>,
    /// Worst verdict before and after.
    pub worst: (Verdict, Verdict),
}

/// A section whose bit has no known nozzles has no pressure at the pumps either.
const NOZZLES: &str = "section[].string[].nozzles";

fn circulating(ground: &mut Ground, section: usize) -> Step {
    match Grid::new(&ground.fit, section) {
        Some(mut grid) => ground.stand_on(circulating::step(ground, section, &mut grid)),
        None => Step::new(Job::Circulating, Some(section), Outcome::Unknown(vec![NOZZLES])),
    }
}

/// Nozzles for either aim, each on its own: nothing stands on them.
fn nozzles(ground: &Ground, section: usize) -> Vec<Step> {
    let mut grid = Grid::new(&ground.fit, section);
    let aims = [(Job::NozzlesForImpact, JetsAim::Impact), (Job::NozzlesForPower, JetsAim::Power)];
    let step = |(job, aim)| match &mut grid {
        Some(grid) => ground.beside(jets::step(ground, section, (job, aim), grid)),
        None => Step::new(job, Some(section), Outcome::Unknown(vec![NOZZLES])),
    };
    aims.map(step).into()
}

/// Looks for better settings of every job.
pub fn propose(fit: &Fit) -> Proposal {
    let mut ground = Ground::new(fit.clone());
    let (before, start) = (ground.review.clone(), ground.worst());
    let sections = 0..fit.well.sections.len();
    let mut steps: Vec<Step> = Vec::new();
    // Another set on line is the easiest turn of all: no flow is cut for want of power that stands idle.
    let more = sets::more(&ground).map(|step| ground.stand_on(step));
    steps.extend(more);
    for section in sections.clone() {
        steps.push(circulating(&mut ground, section));
        for job in [Job::PullingSpeed, Job::RunningSpeed, Job::CasingSpeed] {
            steps.extend(hoisting::speed(&ground, section, job).map(|step| ground.stand_on(step)));
        }
        steps.push(ground.stand_on(string::pipe(&ground, section)));
        steps.push(ground.stand_on(string::collars(&ground, section)));
        steps.extend(nozzles(&ground, section));
        steps.push(hoisting::overpull(&ground, section));
    }
    steps.push(ground.stand_on(hoisting::lines(&ground)));
    for section in sections {
        steps.extend(hoisting::lines_for_casing(&ground, section).map(|step| ground.beside(step)));
    }
    steps.push(ground.stand_on(sets::fewest(&ground)));
    let (improves, spoils) = ground::changes(&before, &ground.review);
    let worst = (start, ground.worst());
    Proposal { steps, improves, spoils, worst }
}
