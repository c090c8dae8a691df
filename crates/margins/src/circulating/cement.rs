//! The cement job: whether the rock bears mud and slurry when the plug is about to land and both are still pumped.
//!
//! Until then slurry only takes the place of mud: where it is the heavier of the two, no earlier moment presses harder.

use super::window::{equivalent, worst_rock};
use crate::fields::flow::Flow;
use crate::fields::open_hole::Point;
use crate::fields::rheology::mud_at;
use crate::fields::runs::past;
use crate::geometry::Annulus;
use crate::question::{Question, Scope};
use crate::{Answer, Scene, sweep};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::friction::FrictionLoss;
use rigwright_physics::circulating::losses;
use rigwright_physics::circulating::runs::{Lie, run_gradient};
use rigwright_physics::{Off, Recorder, Working};
use rigwright_units::Kind;
use rigwright_well::{Operation, Situation};

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "circulating/cement-lift",
    asks: "Does the rock bear mud and slurry, still pumped, at the end of the cement job?",
    title: "cement job",
    kind: Kind::Density,
    scope: Scope::Section,
    knobs: &[],
    assumes: &[
        "the slurry flows like the mud, at its own weight: a thicker one loses more; spacers are left out",
        "casing in the middle of the hole, its couplings left out; returns all the way",
        super::PVT,
    ],
    ask: cement_lift::<Off>,
    show: cement_lift::<Working>,
}];

/// What is asked of the job.
struct Job<'a> {
    /// The casing on its depth, before the slurry has come up.
    placed: &'a Scene<'a>,
    shoe: f64,
    /// Measured depth of the top of cement. [m]
    top: f64,
    /// Weight of the slurry. [kg/m³]
    slurry: f64,
    /// Flow while it is displaced. [m³/s]
    rate: f64,
}

/// A piece of annulus with one fluid in it: upper and lower end, and the weight of the fluid.
type Filled = (f64, f64, f64);

impl Job<'_> {
    /// Pressure that slurry adds over the mud whose place it takes; nought where it is the lighter. [Pa]
    fn heavier<R: Recorder>(&self, flow: &Flow, depth: f64, rec: &mut R) -> f64 {
        let deepest = depth.min(self.shoe);
        if deepest <= self.top {
            return 0.0;
        }
        let (upper, lower) = (self.placed.vertical_depth(self.top), self.placed.vertical_depth(deepest));
        let mud = flow.pressure_at(deepest, lower) - flow.pressure_at(self.top, upper);
        rec.given("mud between the top of cement and this depth", mud, Kind::Pressure);
        let slurry =
            rec.take(Hydrostatic { density: self.slurry, vertical_depth: lower - upper, gravity: self.placed.gravity() });
        if slurry < mud {
            rec.note(|| "The slurry is the lighter: the mud before it counts.".to_owned());
        }
        (slurry - mud).max(0.0)
    }

    /// The annulus beside pipe down to a depth, cut at the top of cement.
    fn filled<'b>(&'b self, annulus: &'b Annulus, depth: f64) -> impl Iterator<Item = Filled> + 'b {
        let beside = annulus.pipe_diameter > 0.0 && annulus.bottom <= self.shoe + 1e-6;
        let bottom = annulus.bottom.min(depth);
        let change = self.top.clamp(annulus.top, bottom.max(annulus.top));
        let mud = self.placed.section().mud.weight;
        let both = [(annulus.top, change, mud), (change, bottom, self.slurry)];
        both.into_iter().filter(move |(top, bottom, _)| beside && *bottom > top + 1e-9)
    }

    /// Friction from a depth up to surface. [Pa]
    fn friction<R: Recorder>(&self, depth: f64, rec: &mut R) -> f64 {
        let method = self.placed.prepared_flow().method;
        let mut sum = 0.0;
        for annulus in self.placed.annuli().iter().rev() {
            for (top, bottom, density) in self.filled(annulus, depth) {
                let Some(mud) = mud_at(self.placed, self.placed.situation, 0.5 * (top + bottom)) else { continue };
                rec.stretch(|| "annulus".to_owned(), top, bottom);
                let pumped = losses::Flow { rate: self.rate, density };
                let gradient =
                    mud.loss(|curve, rec| run_gradient((method, curve), &past(annulus), pumped, &Lie::CONCENTRIC, rec), rec);
                sum += rec.take(FrictionLoss { gradient, length: bottom - top });
            }
        }
        sum
    }

    fn show<R: Recorder>(&self, flow: &Flow, at: &Point, rec: &mut R) {
        rec.heading("mud and slurry at the governing depth");
        rec.given("measured depth", at.depth, Kind::Depth);
        rec.given("top of cement", self.top, Kind::Depth);
        rec.given("flow while the slurry is displaced", self.rate, Kind::FlowRate);
        let still = flow.show_pressure(self.placed, at.depth, at.vertical_depth, rec);
        rec.heading("slurry in the place of mud");
        let heavier = self.heavier(flow, at.depth, rec);
        rec.given("slurry weighs more by", heavier, Kind::Pressure);
        rec.heading("friction from there up, both still pumped");
        let friction = self.friction(at.depth, rec);
        rec.given("sum of the losses", friction, Kind::Pressure);
        rec.heading("against the rock");
        let pressure = still + heavier + friction;
        rec.given("pressure in the annulus: the sum of the three", pressure, Kind::Pressure);
        rec.take(equivalent(self.placed, pressure, at));
        let limit = at.fracture.unwrap_or_default();
        rec.given("fracture pressure", limit, Kind::Pressure);
        rec.take(equivalent(self.placed, limit, at));
    }
}

fn cement_lift<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.section();
    let Some(casing) = &*section.casing else { return Answer::DoesNotArise("no casing is cemented") };
    let (Some(top), Some(slurry), Some(rate)) = (casing.cement_top, casing.cement_weight, casing.cement_rate) else {
        let entries = [
            ("section[].casing.cement_top", casing.cement_top),
            ("section[].casing.cement_weight", casing.cement_weight),
            ("section[].casing.cement_rate", casing.cement_rate),
        ];
        return Answer::Missing(entries.iter().filter(|entry| entry.1.is_none()).map(|entry| entry.0).collect());
    };
    let situation = sweep::situation(scene.fit(), scene.situation.section, Operation::RunningCasing, section.bottom, casing.shoe);
    let mut placed = Scene::new(scene.basis, Situation { pipe_speed: 0.0, ..situation });
    placed.at = scene.at;
    let flow = placed.flow(&mut Off);
    if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let job = Job { placed: &placed, shoe: casing.shoe, top, slurry, rate };
    let (worst, unknown) = worst_rock(&placed, flow, |top, point| {
        top.weight_of(job.heavier(flow, point.depth, &mut Off) + job.friction(point.depth, &mut Off), point)
    });
    match worst {
        None if unknown => Answer::Missing(vec!["formation[].fracture"]),
        None => Answer::DoesNotArise("no open hole"),
        // A layer whose strength nobody knows must not look as if it held.
        Some((judged, _)) if unknown && judged.room() >= 0.0 => Answer::Missing(vec!["formation[].fracture"]),
        Some((judged, at)) => {
            if R::ON {
                job.show(flow, &at, rec);
            }
            Answer::Judged(judged)
        }
    }
}
