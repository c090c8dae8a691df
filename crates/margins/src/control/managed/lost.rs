//! The mud without its back pressure: what it holds alone, and how long the well stays over balance when pressure, seal or
//! power is lost.

use super::NO_BACK_PRESSURE;
use super::plan::{at_flow, mud_column, mud_pressure, plan, points};
use crate::answer::Figure;
use crate::circulating::{annular_volume, equivalent_weight};
use crate::fields::flow::Flow;
use crate::fields::open_hole::Point;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::column::EquivalentMudWeight;
use rigwright_physics::control::managed::BleedOffTime;
use rigwright_physics::numerics::root;
use rigwright_physics::{Formula, Kind, Off, Recorder, Root};

/// Mud weights that are tried, in steps of this to both sides of the mud in the hole: 0.1 ppg. [kg/m³]
const WEIGHT_STEP: f64 = 11.982_642_731_689_663;
const WEIGHTS: i32 = 4;

pub(super) fn mud_alone<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let plan = match plan(scene, rec) {
        Ok(plan) => plan,
        Err(answer) => return answer,
    };
    let over = |at: &Point| mud_pressure(scene, at) - at.pore;
    // As a mud weight: that is what the crew can turn.
    let need = |at: &Point| equivalent_weight(scene, at.pore, at);
    let rock: Vec<Point> = plan.depths.iter().map(|at| at.point).collect();
    let Some(worst) = rock.iter().copied().max_by(|a, b| need(a).total_cmp(&need(b))) else {
        return Answer::DoesNotArise("no open hole");
    };
    rec.heading("the depth that asks for the heaviest mud");
    rec.given("measured depth", worst.depth, Kind::Depth);
    rec.given("its pore pressure", worst.pore, Kind::Pressure);
    rec.take(EquivalentMudWeight { pressure: worst.pore, vertical_depth: worst.vertical_depth, gravity: scene.gravity() });
    rec.take(mud_column(scene, &worst));
    let margin = scene.fit().well.margins.trip;
    let full = at_flow(scene, scene.section().drilling.flow_rate);
    rec.table("choices of mud weight", CHOICES, || {
        let weight = |step: i32| scene.section().mud.weight + WEIGHT_STEP * f64::from(step);
        let row = |weight: f64| {
            let pressure = |at: &Point| weight * scene.gravity() * at.vertical_depth;
            let least = rock.iter().map(|at| pressure(at) - at.pore).fold(f64::INFINITY, f64::min);
            let still = plan.target - weight * scene.gravity() * plan.anchor[1];
            let loss = full.pressure_at(plan.anchor[0], plan.anchor[1]) - plan.column;
            vec![weight, least, still - loss, still]
        };
        (-WEIGHTS..=WEIGHTS).map(|step| row(weight(step))).collect()
    });
    rec.note(|| "Below nought in the second column: the mud alone is under balance. Below nought in the third or fourth: too heavy for the pressure that the anchor shall have.".into());
    let left = over(&worst);
    let name = if left < 0.0 { "mud alone is UNDER balance by" } else { "mud alone is over balance by" };
    Answer::Told(vec![
        Figure { name, value: left.abs(), kind: Kind::Pressure },
        Figure { name: "at measured depth", value: worst.depth, kind: Kind::Depth },
        Figure { name: "mud weight that just balances it alone", value: need(&worst), kind: Kind::Density },
        Figure { name: "with the trip margin", value: need(&worst) + margin, kind: Kind::Density },
    ])
}

const CHOICES: &[(&str, Kind)] = &[
    ("mud weight", Kind::Density),
    ("mud alone over pore, least", Kind::Pressure),
    ("back pressure, pumping", Kind::Pressure),
    ("back pressure, pumps off", Kind::Pressure),
];

/// What can be lost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Loss {
    /// Seal or choke fails while the pumps run.
    Pumping,
    /// Power fails: the pumps run down while the back pressure bleeds off.
    Power,
    /// Seal or choke fails with the pumps off.
    Still,
}

/// What the reckoning reads. [SI]
struct Reckoning<'a, 'b> {
    scene: &'a Scene<'b>,
    flowing: f64,
    still: f64,
    volume: f64,
    leak_rate: f64,
    run_down: f64,
    full: &'a Flow,
}

impl Reckoning<'_, '_> {
    fn bleed_off(&self, pressure_drop: f64) -> BleedOffTime {
        let compressibility = self.scene.section().mud.compressibility;
        BleedOffTime { compressibility, volume: self.volume, pressure_drop, leak_rate: self.leak_rate }
    }

    /// Pressure at a depth while pumping, without back pressure, at a share of the flow. [Pa]
    fn pumped(&self, at: &Point, share: f64) -> f64 {
        at_flow(self.scene, self.scene.section().drilling.flow_rate * share).pressure_at(at.depth, at.vertical_depth)
    }

    /// Time from the loss until a depth is under balance; `None` for never. [s]
    fn time<R: Recorder>(&self, loss: Loss, at: &Point, rec: &mut R) -> Option<f64> {
        let column = mud_pressure(self.scene, at);
        let friction = self.full.pressure_at(at.depth, at.vertical_depth) - column;
        let (held, stays) = match loss {
            Loss::Pumping => (self.flowing, column + friction),
            Loss::Power => (self.flowing, column),
            Loss::Still => (self.still, column),
        };
        if stays >= at.pore {
            return None;
        }
        if loss != Loss::Power {
            let drop = held - (at.pore - stays);
            return Some(if drop > 0.0 { rec.take(self.bleed_off(drop)) } else { 0.0 });
        }
        let empty = self.bleed_off(held).value();
        let over = |time: f64| {
            let share = (1.0 - time / self.run_down).max(0.0);
            let back = if empty > 0.0 { held * (1.0 - time / empty).max(0.0) } else { 0.0 };
            self.pumped(at, share) + back - at.pore
        };
        if over(0.0) <= 0.0 {
            return Some(0.0);
        }
        let value = root(over, 0.0, self.run_down.max(empty))?;
        rec.root(Root {
            equation: "p_h + Δp_a(Q (1 - t/t_run)) + p_b (1 - t/t_bleed) = p_pore",
            sign: "t",
            meaning: "time until this depth is under balance",
            kind: Kind::Time,
            value,
            residual: over(value),
            residual_kind: Kind::Pressure,
        });
        Some(value)
    }
}

pub(super) fn lost<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(managed) = scene.section().managed_pressure else { return NO_BACK_PRESSURE };
    let full = at_flow(scene, scene.section().drilling.flow_rate);
    if let Some(entry) = full.missing.filter(|_| full.pieces.is_empty()) {
        return Answer::Missing(vec![entry]);
    }
    let rock = points(scene, &full);
    if rock.iter().all(|at| mud_pressure(scene, at) >= at.pore) {
        return Answer::DoesNotArise("the mud alone holds every depth of open hole");
    }
    let needed =
        [(managed.leak_rate, "section[].managed_pressure.leak_rate"), (managed.run_down, "section[].managed_pressure.run_down")];
    let missing: Vec<&'static str> = needed.iter().filter(|(value, _)| value.is_none()).map(|(_, entry)| *entry).collect();
    let (Some(leak_rate), Some(run_down)) = (managed.leak_rate, managed.run_down) else { return Answer::Missing(missing) };
    rec.heading("mud in the annulus");
    let volume = annular_volume(scene, rec);
    let reckoning = Reckoning { scene, flowing: managed.flowing, still: managed.still, volume, leak_rate, run_down, full: &full };
    let mut least: Option<(f64, Loss, Point)> = None;
    let mut figures = Vec::new();
    for (loss, heading, what) in [
        (Loss::Pumping, "seal or choke fails while pumping", "least time, seal or choke lost while pumping"),
        (Loss::Power, "power fails while pumping", "least time, power lost while pumping"),
        (Loss::Still, "seal or choke fails, pumps off", "least time, seal or choke lost with the pumps off"),
    ] {
        rec.heading(heading);
        let times = rock.iter().filter_map(|at| Some((reckoning.time(loss, at, &mut Off)?, *at)));
        let Some((time, at)) = times.min_by(|a, b| a.0.total_cmp(&b.0)) else {
            rec.note(|| "What is left holds every depth of open hole.".to_owned());
            continue;
        };
        if R::ON {
            rec.given("measured depth that is first under balance", at.depth, Kind::Depth);
            rec.given("its pore pressure", at.pore, Kind::Pressure);
            rec.take(mud_column(scene, &at));
            let friction = full.pressure_at(at.depth, at.vertical_depth) - mud_pressure(scene, &at);
            rec.given("friction from there to surface while pumping", friction, Kind::Pressure);
            let held = if loss == Loss::Still { managed.still } else { managed.flowing };
            rec.given("back pressure that is lost", held, Kind::Pressure);
            reckoning.time(loss, &at, rec);
        }
        rec.given(what, time, Kind::Time);
        figures.push(Figure { name: what, value: time, kind: Kind::Time });
        if least.is_none_or(|(kept, ..)| time < kept) {
            least = Some((time, loss, at));
        }
    }
    let Some((capacity, loss, at)) = least else {
        return Answer::DoesNotArise("what is left holds every depth of open hole");
    };
    let Some(demand) = managed.response_time else { return Answer::Told(figures) };
    let name = match loss {
        Loss::Pumping => "seal or choke lost while pumping",
        Loss::Power => "power lost while pumping",
        Loss::Still => "seal or choke lost, pumps off",
    };
    let reserve = scene.fit().well.reserves.volume * demand;
    let limit = Limit { capacity, reserve, name, source: "bleed-off of the annulus, and friction as the pumps run down" };
    Answer::Judged(Judged { demand, limit, place: Place::Depth(at.depth), zero: 0.0 })
}
