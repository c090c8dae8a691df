//! A situation with what the questions share: the prepared parts of a fit, and the fields along the well,
//! each solved once, when the first question reads it.

use crate::Answer;
use crate::fields::open_hole::{self, Point};
use crate::fields::{cleaning, drag, flow, influx};
use crate::geometry::{self, Annulus, PipePiece};
use crate::power::trace::{self, PowerTrace};
use crate::programme::Programme;
use crate::programme::time::Trips;
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::{Formula, Off, Recorder, STANDARD_GRAVITY};
use rigwright_well::{Fit, Kept, Parts, Section, Situation, noted};
use rustc_hash::FxHashMap;
use smallvec::SmallVec;
use std::cell::RefCell;
use std::rc::Rc;

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
    /// What preparing it read.
    pub(crate) read: Parts,
    programme: Kept<Programme>,
    /// What a set gives on this site.
    pub(crate) site_rating: Kept<Result<f64, Vec<&'static str>>>,
    /// The jobs of a fit that differs from this one in some parts, where they are known beforehand.
    pub(crate) jobs_before: Option<(Parts, Programme)>,
    pub(crate) trips: Trips,
    /// Vertical depths that somebody asked for, by measured depth to the last bit: the ends of pieces are the same in many situations.
    /// They need no notes: the path is no watched part, so that everybody counts as its reader.
    vertical_depths: RefCell<FxHashMap<u64, f64>>,
    /// The same the other way.
    measured_depths: RefCell<FxHashMap<u64, Option<f64>>>,
}

impl<'a> Basis<'a> {
    /// Prepares a fit.
    pub fn new(fit: &'a Fit) -> Basis<'a> {
        let (influx, read) = noted(|| influx::Prepared::new(fit));
        Basis {
            fit,
            drag: drag::Prepared::new(fit),
            flow: flow::Prepared::new(fit),
            influx,
            read,
            programme: Kept::default(),
            site_rating: Kept::default(),
            jobs_before: None,
            trips: Trips::new(fit.well.sections.len()),
            vertical_depths: RefCell::default(),
            measured_depths: RefCell::default(),
        }
    }

    /// Prepares a fit that differs in some parts from one whose jobs are known: those that do not stand on these are taken over.
    pub(crate) fn after(fit: &'a Fit, changed: Parts, known: &Programme) -> Basis<'a> {
        Basis { jobs_before: Some((changed, known.clone())), ..Basis::new(fit) }
    }

    /// The programme, if anybody asked for it. Whoever reads it asks again where a job stands on a change, so that nobody asking
    /// leaves the jobs that were known.
    pub(crate) fn into_programme(self) -> Programme {
        let known = self.jobs_before.map(|(_, known)| known);
        self.programme.into_inner().map(|(programme, _)| programme).or(known).unwrap_or_default()
    }

    /// Vertical depth of a measured depth. [m]
    pub fn vertical_depth(&self, depth: f64) -> f64 {
        let mut known = self.vertical_depths.borrow_mut();
        *known.entry(depth.to_bits()).or_insert_with(|| self.fit.well.path.vertical_depth_at(depth))
    }

    /// Measured depth at which the path first meets a vertical depth; `None` where it does not. [m]
    pub fn measured_depth(&self, vertical_depth: f64) -> Option<f64> {
        let mut known = self.measured_depths.borrow_mut();
        *known.entry(vertical_depth.to_bits()).or_insert_with(|| self.fit.well.path.measured_depth_at(vertical_depth))
    }

    /// The jobs of the well with their times and their line work.
    pub fn programme(&self) -> &Programme {
        self.programme.get(|| Programme::new(self))
    }
}

/// What hangs where in the hole: the same for all situations with the same pipe at the same place in the same hole.
#[derive(Default)]
struct InHole<'a> {
    string: Kept<Vec<PipePiece<'a>>>,
    annuli: Kept<Vec<Annulus>>,
    /// Vertical depths of the ends of each annulus, the upper first. [m]
    levels: Kept<Vec<[f64; 2]>>,
    open_ends: Kept<Vec<Point>>,
    kick_annulus: Kept<Option<rigwright_physics::control::annulus::Annulus>>,
    /// Of the situations that somebody asked about.
    fields: RefCell<SmallVec<[Rc<Fields>; 6]>>,
}

/// What is solved of one situation.
struct Fields {
    situation: Situation,
    drag: Kept<drag::Drag>,
    flow: Kept<flow::Flow>,
}

impl InHole<'_> {
    /// The fields of a situation, solved or not.
    fn fields(&self, situation: Situation) -> Rc<Fields> {
        let mut known = self.fields.borrow_mut();
        if let Some(fields) = known.iter().find(|fields| fields.situation == situation) {
            return fields.clone();
        }
        let fields = Rc::new(Fields { situation, drag: Kept::default(), flow: Kept::default() });
        known.push(fields.clone());
        fields
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
    pipe: Rc<InHole<'a>>,
    cleaning: Kept<Option<cleaning::Wanted>>,
    fields: Rc<Fields>,
    kick_tolerance: Kept<Answer>,
    cycle: Kept<Option<Result<PowerTrace, &'static str>>>,
}

impl<'a> Scene<'a> {
    /// A scene of a situation.
    pub fn new(basis: &'a Basis<'a>, situation: Situation) -> Scene<'a> {
        Scene::in_hole(basis, Rc::default(), situation)
    }

    /// The scene of another situation with the same pipe at the same place in the same hole: both share what hangs there, and
    /// what is solved of one situation is not solved again.
    pub(crate) fn with_same_pipe(&self, situation: Situation) -> Scene<'a> {
        Scene::in_hole(self.basis, self.pipe.clone(), situation)
    }

    fn in_hole(basis: &'a Basis<'a>, pipe: Rc<InHole<'a>>, situation: Situation) -> Scene<'a> {
        let fields = pipe.fields(situation);
        Scene {
            basis,
            situation,
            at: None,
            pipe,
            cleaning: Kept::default(),
            fields,
            kick_tolerance: Kept::default(),
            cycle: Kept::default(),
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
        self.basis.vertical_depth(depth)
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
        self.pipe.string.get(|| geometry::string(self.basis.fit, &self.situation))
    }

    /// The annulus, from the bottom of the hole up.
    pub fn annuli(&self) -> &[Annulus] {
        self.pipe.annuli.get(|| geometry::annuli(self.basis.fit, &self.situation, self.string()))
    }

    /// The annuli with the vertical depths of their ends, the upper first; from the bottom of the hole up.
    pub(crate) fn levelled(&self) -> impl DoubleEndedIterator<Item = (&Annulus, [f64; 2])> {
        let levels = self.pipe.levels.get(|| {
            let level = |annulus: &Annulus| [annulus.top, annulus.bottom].map(|depth| self.vertical_depth(depth));
            self.annuli().iter().map(level).collect()
        });
        self.annuli().iter().zip(levels.iter().copied())
    }

    /// The rock at the lower end of each annulus of the open hole, from the top down.
    pub(crate) fn open_ends(&self) -> &[Point] {
        self.pipe.open_ends.get(|| {
            let open = self.annuli().iter().rev().filter(|annulus| !annulus.cased);
            open.filter_map(|annulus| open_hole::point(self.fit(), annulus.bottom)).collect()
        })
    }

    /// The annulus as a gas bubble meets it; `None` for a hole that climbs towards its end.
    pub fn kick_annulus(&self) -> Option<&rigwright_physics::control::annulus::Annulus> {
        self.pipe.kick_annulus.get(|| influx::annulus(self)).as_ref()
    }

    /// The annulus that wants the most flow to be cleaned; `None` without annulus or flow curve.
    pub fn cleaning(&self) -> Option<&cleaning::Wanted> {
        self.cleaning.get(|| cleaning::wanted(self, self.section().drilling.penetration_rate)).as_ref()
    }

    /// Tension, side force and torque along the string. With a recorder that is on, its working is noted too.
    pub fn drag<R: Recorder>(&self, rec: &mut R) -> &drag::Drag {
        if R::ON {
            drag::Drag::solve(self, rec);
        }
        self.fields.drag.get(|| {
            let (drag, parts) = noted(|| drag::Drag::solve(self, &mut Off));
            self.basis.drag.learn(self.situation, drag.surface_tension, parts);
            drag
        })
    }

    /// Whether anybody asked for tension, side force and torque.
    pub(crate) fn drag_is_known(&self) -> bool {
        self.fields.drag.is_known()
    }

    /// Works out tension, side force and torque of two situations side by side, which takes less than one after the other.
    pub(crate) fn drag_both(scenes: [&Scene; 2]) {
        let (drags, parts) = noted(|| drag::Drag::solve_both(scenes));
        for (scene, drag) in scenes.into_iter().zip(drags) {
            scene.basis.drag.learn(scene.situation, drag.surface_tension, parts);
            scene.fields.drag.put(drag, parts);
        }
    }

    /// Pressure along the circuit. With a recorder that is on, its working is noted too.
    pub fn flow<R: Recorder>(&self, rec: &mut R) -> &flow::Flow {
        if R::ON {
            flow::Flow::solve(self, rec);
        }
        self.fields.flow.get(|| flow::Flow::solve(self, &mut Off))
    }

    /// Kick tolerance of the design kick, which several questions read: worked out by the first of them.
    pub(crate) fn kick_tolerance(&self, work_out: impl FnOnce() -> Answer) -> Answer {
        self.kick_tolerance.get(work_out).clone()
    }

    /// Power against time through the stand, joint or connection of the situation; `None` where the load is steady.
    pub fn power_cycle(&self) -> Option<Result<&PowerTrace, &'static str>> {
        let cycle = self.cycle.get(|| trace::cycle(self, &mut Off));
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
