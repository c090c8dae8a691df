//! A situation with what the questions share: the prepared parts of a fit, and the fields along the well,
//! each solved once, when the first question reads it.

use crate::Answer;
use crate::fields::{cleaning, drag, flow, influx};
use crate::geometry::{self, Annulus, PipePiece};
use crate::power::trace::{self, PowerTrace};
use crate::programme::Programme;
use crate::programme::time::Trips;
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::{Formula, Off, Recorder, STANDARD_GRAVITY};
use rigwright_well::{Fit, Section, Situation};
use std::cell::OnceCell;
use std::sync::OnceLock;

/// What is prepared once for a fit and read in every situation.
pub struct Basis<'a> {
    /// The well and the rig.
    pub fit: &'a Fit,
    /// For string and path.
    pub drag: drag::Prepared,
    /// For mud and open hole.
    pub flow: flow::Prepared,
    /// For gas.
    pub influx: influx::Prepared,
    programme: OnceLock<Programme>,
    /// The jobs of the sections above one, where they are known beforehand.
    pub(crate) jobs_above: (usize, Programme),
    pub(crate) trips: Trips,
}

impl<'a> Basis<'a> {
    /// Prepares a fit.
    pub fn new(fit: &'a Fit) -> Basis<'a> {
        Basis {
            fit,
            drag: drag::Prepared::new(fit),
            flow: flow::Prepared::new(fit),
            influx: influx::Prepared::new(fit),
            programme: OnceLock::new(),
            jobs_above: (0, Programme::default()),
            trips: Trips::default(),
        }
    }

    /// Prepares a fit that says the same of all above a section as one whose jobs are known: those above are taken over.
    pub(crate) fn below(fit: &'a Fit, section: usize, known: &Programme) -> Basis<'a> {
        let jobs_above = if known.steps.is_empty() { (0, Programme::default()) } else { (section, known.above(section)) };
        Basis { jobs_above, ..Basis::new(fit) }
    }

    /// The programme, if anybody asked for it.
    pub(crate) fn into_programme(self) -> Programme {
        self.programme.into_inner().unwrap_or_default()
    }

    /// The jobs of the well with their times and their line work.
    pub fn programme(&self) -> &Programme {
        self.programme.get_or_init(|| Programme::new(self))
    }
}

/// One situation, ready to be asked.
pub struct Scene<'a> {
    /// What is prepared for the fit.
    pub basis: &'a Basis<'a>,
    /// The situation.
    pub situation: Situation,
    /// The one measured depth that questions asked along the hole shall look at; `None` for the worst. [m]
    pub at: Option<f64>,
    string: OnceCell<Vec<PipePiece<'a>>>,
    annuli: OnceCell<Vec<Annulus>>,
    kick_annulus: OnceCell<Option<rigwright_physics::control::annulus::Annulus>>,
    cleaning: OnceCell<Option<cleaning::Wanted>>,
    drag: OnceCell<drag::Drag>,
    flow: OnceCell<flow::Flow>,
    kick_tolerance: OnceCell<Answer>,
    cycle: OnceCell<Option<Result<PowerTrace, &'static str>>>,
}

impl<'a> Scene<'a> {
    /// A scene of a situation.
    pub fn new(basis: &'a Basis<'a>, situation: Situation) -> Scene<'a> {
        Scene {
            basis,
            situation,
            at: None,
            string: OnceCell::new(),
            annuli: OnceCell::new(),
            kick_annulus: OnceCell::new(),
            cleaning: OnceCell::new(),
            drag: OnceCell::new(),
            flow: OnceCell::new(),
            kick_tolerance: OnceCell::new(),
            cycle: OnceCell::new(),
        }
    }

    /// The depth at which a question asked along the hole looks at a stretch: where it bites, or where somebody wants
    /// to look; `None` when that lies elsewhere. [m]
    pub fn look(&self, stretch: std::ops::RangeInclusive<f64>, bites: f64) -> Option<f64> {
        match self.at {
            None => Some(bites),
            Some(at) => stretch.contains(&at).then_some(at),
        }
    }

    /// The well and the rig.
    pub fn fit(&self) -> &'a Fit {
        self.basis.fit
    }

    /// The section.
    pub fn section(&self) -> &'a Section {
        &self.basis.fit.well.sections[self.situation.section]
    }

    /// Vertical depth of a measured depth. [m]
    pub fn vertical_depth(&self, depth: f64) -> f64 {
        self.basis.fit.well.path.vertical_depth_at(depth)
    }

    /// Acceleration of free fall used in every hydrostatic figure. [m/s²]
    pub fn gravity(&self) -> f64 {
        STANDARD_GRAVITY
    }

    /// Flow up past a piece of annulus: what comes up the hole, and in a riser what is pumped into it on top. [m³/s]
    pub fn flow_past(&self, annulus: &Annulus) -> f64 {
        self.situation.flow_rate + if annulus.riser { self.situation.booster } else { 0.0 }
    }

    /// Density of the sea. [kg/m³]
    pub fn sea_density(&self) -> f64 {
        self.fit().well.sea.map_or(0.0, |sea| sea.density)
    }

    /// Pressure of the sea on its bed, where the mud of this section goes out there; nought elsewhere. [Pa]
    pub fn sea_pressure(&self) -> f64 {
        self.fit().open_to_sea(self.situation.section).map_or(0.0, |_| sea_pressure(self.fit()))
    }

    /// What is prepared of this section for mud and open hole.
    pub fn prepared_flow(&self) -> &flow::SectionFlow {
        self.basis.flow.section(self.basis.fit, self.situation.section)
    }

    /// What hangs in the hole, from the bit up.
    pub fn string(&self) -> &[PipePiece<'a>] {
        self.string.get_or_init(|| geometry::string(self.basis.fit, &self.situation))
    }

    /// The annulus, from the bottom of the hole up.
    pub fn annuli(&self) -> &[Annulus] {
        self.annuli.get_or_init(|| geometry::annuli(self.basis.fit, &self.situation))
    }

    /// The annulus as a gas bubble meets it; `None` for a hole that climbs towards its end.
    pub fn kick_annulus(&self) -> Option<&rigwright_physics::control::annulus::Annulus> {
        self.kick_annulus.get_or_init(|| influx::annulus(self)).as_ref()
    }

    /// The annulus that wants the most flow to be cleaned; `None` without annulus or flow curve.
    pub fn cleaning(&self) -> Option<&cleaning::Wanted> {
        self.cleaning.get_or_init(|| cleaning::wanted(self, self.section().drilling.penetration_rate)).as_ref()
    }

    /// Tension, side force and torque along the string. With a recorder that is on, its working is noted too.
    pub fn drag<R: Recorder>(&self, rec: &mut R) -> &drag::Drag {
        if R::ON {
            drag::Drag::solve(self, rec);
        }
        self.drag.get_or_init(|| drag::Drag::solve(self, &mut Off))
    }

    /// Pressure along the circuit. With a recorder that is on, its working is noted too.
    pub fn flow<R: Recorder>(&self, rec: &mut R) -> &flow::Flow {
        if R::ON {
            flow::Flow::solve(self, rec);
        }
        self.flow.get_or_init(|| flow::Flow::solve(self, &mut Off))
    }

    /// Kick tolerance of the design kick, which several questions read: worked out by the first of them.
    pub(crate) fn kick_tolerance(&self, work_out: impl FnOnce() -> Answer) -> Answer {
        self.kick_tolerance.get_or_init(work_out).clone()
    }

    /// Power against time through the stand, joint or connection of the situation; `None` where the load is steady.
    pub fn power_cycle(&self) -> Option<Result<&PowerTrace, &'static str>> {
        let cycle = self.cycle.get_or_init(|| trace::cycle(self, &mut Off));
        cycle.as_ref().map(|cycle| cycle.as_ref().map_err(|entry| *entry))
    }
}

/// Pressure of the sea on its bed under a floating rig; nought elsewhere. [Pa]
pub(crate) fn sea_pressure(fit: &Fit) -> f64 {
    let sea = fit.well.sea.filter(|_| fit.well.sea_bed().is_some());
    sea.map_or(0.0, |sea| {
        Hydrostatic { density: sea.density, vertical_depth: fit.well.water_depth, gravity: STANDARD_GRAVITY }.value()
    })
}
