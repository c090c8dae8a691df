//! The programme of the well: what the crew does, job after job, how long each job takes, and how much it works the
//! drilling line. Fuel, the days of the well and the plan of slipping and cutting all fold over the same jobs.
//!
//! A section is run into, drilled with its bits, cored, circulated clean, wiped with its short trips, pulled out of, cased and
//! cemented. Logging, waiting and moves of the rig are left out.

mod along;
pub(crate) mod cuts;
pub(crate) mod line;
pub(crate) mod time;

#[cfg(test)]
mod tests;

use crate::Basis;
use rigwright_physics::{Off, Recorder};
use rigwright_well::{Casing, Fit, Parts, Section, note, noted};

/// A kind of job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Job {
    /// The string is run in.
    RunIn,
    /// Hole is drilled, stand after stand.
    Drill,
    /// Hole is cored.
    Core,
    /// Mud is circulated until what was at the bottom is at surface.
    Circulate,
    /// The string is pulled out.
    PullOut,
    /// Casing or a liner is run.
    RunCasing,
    /// Cementing, waiting, preventers, tests.
    Flat,
}

impl Job {
    /// Every kind, in the order in which a section meets them.
    pub const ALL: [Job; 7] = [Job::RunIn, Job::Drill, Job::Core, Job::Circulate, Job::PullOut, Job::RunCasing, Job::Flat];

    /// In plain words, lower case.
    pub const fn name(self) -> &'static str {
        match self {
            Job::RunIn => "running in",
            Job::Drill => "drilling",
            Job::Core => "coring",
            Job::Circulate => "circulating",
            Job::PullOut => "pulling out",
            Job::RunCasing => "running casing",
            Job::Flat => "cementing, waiting, testing",
        }
    }
}

/// One job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Index of the section.
    pub section: usize,
    /// What is done.
    pub job: Job,
    /// Measured depth of the bit or shoe when it begins. [m]
    pub from: f64,
    /// And when it ends. [m]
    pub to: f64,
    /// Measured depth of the hole when it ends. [m]
    pub hole: f64,
    /// Time since the well was begun. [s]
    pub start: f64,
    /// How long it takes. [s]
    pub time: f64,
    /// Work of the drilling line by the rules of API RP 9B. [J]
    pub line_work: f64,
}

impl Step {
    /// Time since the well was begun when it ends. [s]
    pub fn end(&self) -> f64 {
        self.start + self.time
    }

    /// Length that the bit or shoe goes. [m]
    pub fn way(&self) -> f64 {
        (self.to - self.from).abs()
    }
}

/// All jobs of a well, in order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Programme {
    /// The jobs.
    pub steps: Vec<Step>,
    /// By section: what its jobs were worked out from.
    stands_on: Vec<Parts>,
}

impl Programme {
    /// The programme of a fit.
    pub fn new(basis: &Basis) -> Programme {
        let mut programme = Programme::default();
        for section in 0..basis.fit.well.sections.len() {
            let (steps, parts) = jobs_before(basis, section).unwrap_or_else(|| noted(|| jobs(basis, section)));
            note(parts);
            programme.stands_on.push(parts);
            for step in steps {
                let start = programme.duration();
                programme.steps.push(Step { start, ..step });
            }
        }
        programme
    }

    /// From the first job to the end of the last. [s]
    pub fn duration(&self) -> f64 {
        self.steps.last().map_or(0.0, Step::end)
    }

    /// The jobs of one section.
    pub fn section(&self, section: usize) -> impl Iterator<Item = &Step> {
        self.steps.iter().filter(move |step| step.section == section)
    }
}

/// The jobs of a section as they were in a fit that differs in parts on which they do not stand; `None` where they stand on one.
fn jobs_before(basis: &Basis, section: usize) -> Option<(Vec<Step>, Parts)> {
    let (changed, known) = basis.jobs_before.as_ref()?;
    let parts = *known.stands_on.get(section).filter(|parts| !parts.meets(*changed))?;
    Some((known.section(section).copied().collect(), parts))
}

/// The jobs of a section with their times, each as if the well began with it.
fn jobs(basis: &Basis, section: usize) -> Vec<Step> {
    let timed = |outline: Step| Step {
        time: time::of(basis, &outline, &mut Off),
        line_work: line::work(basis, &outline, &mut Off),
        ..outline
    };
    outline(basis.fit, section).into_iter().map(timed).collect()
}

/// The jobs of a section in order, not yet timed.
pub(crate) fn outline(fit: &Fit, section: usize) -> Vec<Step> {
    let this = &fit.well.sections[section];
    let shoe = crate::geometry::open_from(fit, section).min(this.bottom);
    let mut bit = Bit { section, hole: this.top, at: 0.0, steps: Vec::new() };
    bit.go(Job::RunIn, this.top);
    for end in bit_ends(this) {
        if bit.hole > this.top {
            bit.change();
        }
        bit.drill(Job::Drill, end);
    }
    if this.drilling.cored > 0.0 {
        if bit.hole > this.top {
            bit.change();
        }
        bit.drill(Job::Core, this.bottom);
    }
    bit.stay(Job::Circulate);
    for _ in 0..this.tripping.short_trips {
        bit.go(Job::PullOut, shoe);
        bit.go(Job::RunIn, this.bottom);
        bit.stay(Job::Circulate);
    }
    bit.go(Job::PullOut, 0.0);
    if let Some(Casing { top, shoe, .. }) = *this.casing {
        bit.go(Job::RunCasing, shoe);
        // A liner stays; the pipe that it was run on comes out.
        bit.at = top;
        bit.go(Job::PullOut, 0.0);
        bit.stay(Job::Flat);
    }
    bit.steps
}

/// Depths to which the bits of a section drill, each its share.
fn bit_ends(section: &Section) -> impl Iterator<Item = f64> {
    let end = (section.bottom - section.drilling.cored).max(section.top);
    let (top, bits) = (section.top, f64::from(section.drilling.bits.max(1)));
    let ends = (1..=section.drilling.bits.max(1)).map(move |bit| top + (end - top) * f64::from(bit) / bits);
    ends.filter(move |_| end > top)
}

/// Where the bit is while the jobs are laid out.
struct Bit {
    section: usize,
    hole: f64,
    at: f64,
    steps: Vec<Step>,
}

impl Bit {
    fn push(&mut self, job: Job, to: f64) {
        let (section, from, hole) = (self.section, self.at, self.hole);
        self.steps.push(Step { section, job, from, to, hole, start: 0.0, time: 0.0, line_work: 0.0 });
        self.at = to;
    }

    fn go(&mut self, job: Job, to: f64) {
        if (to - self.at).abs() > 1e-6 {
            self.push(job, to);
        }
    }

    fn stay(&mut self, job: Job) {
        self.push(job, self.at);
    }

    fn drill(&mut self, job: Job, to: f64) {
        self.hole = to;
        self.go(job, to);
    }

    /// Out and in again with another bit.
    fn change(&mut self) {
        let bottom = self.at;
        self.go(Job::PullOut, 0.0);
        self.go(Job::RunIn, bottom);
    }
}

/// The working of one job of the programme: how long it takes and how much it works the line.
pub(crate) fn show<R: Recorder>(basis: &Basis, step: &Step, rec: &mut R) {
    let name = || format!("{}: {}", basis.fit.well.sections[step.section].name, step.job.name());
    rec.stretch(name, step.from.min(step.to), step.from.max(step.to));
}
