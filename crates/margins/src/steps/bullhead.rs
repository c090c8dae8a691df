//! Bullheading: what stands in the annulus is pushed back into the formation, between the pressure that pushes and the one
//! that breaks.

use super::gas::Bears;
use super::{Cell, GAIN, Input, Maker, Method, NOT_A_SET_POINT, PEOPLE, Refused, SIDPP, STANDARD_INVALID};
use crate::circulating::pumps::pump_output;
use crate::fields::influx::with_kick;
use rigwright_physics::control::bubble::Bubble;
use rigwright_physics::control::influx::MigrationFromWeight;
use rigwright_physics::control::kill::KillStrokes;
use rigwright_physics::control::non_circulating::BullheadHighestPressure;
use rigwright_physics::{Formula, Kind, Off, Range, Recorder};

/// Even parts of the influx, and of all that is pumped after it.
const PARTS: [u32; 2] = [4, 6];

pub(super) static METHOD: Method = Method {
    slug: "bullhead",
    title: "bullheading down the annulus",
    asks: "what came in is pushed back down the annulus: the surface pressure that just pushes and the one that breaks rock or equipment, by volume pumped",
    inputs: &[
        SIDPP,
        GAIN,
        Input {
            key: "weight",
            kind: Kind::Density,
            meaning: "weight of what is pumped",
            otherwise: Some("mud in the hole"),
            must: Range::between(700.0, 2_800.0),
        },
        Input {
            key: "friction",
            kind: Kind::Pressure,
            meaning: "friction from the pump to the open hole, measured at the rate to be used",
            otherwise: Some("not known: nought, so that the limit errs low"),
            must: Range::NON_NEGATIVE,
        },
        Input {
            key: "fraction",
            kind: Kind::Fraction,
            meaning: "share of fracture pressure that may be used",
            otherwise: Some("all of it"),
            must: Range::EFFICIENCY,
        },
        Input {
            key: "beyond",
            kind: Kind::Volume,
            meaning: "volume pumped beyond the annulus",
            otherwise: Some("none"),
            must: Range::between(0.0, 500.0),
        },
    ],
    cautions: &[
        "the fluid goes into the weakest open depth, which need not be the one that flowed: the shoe decides in open hole, not the bottom",
        "what stands lowest goes in first; the influx keeps its volume while it is pushed",
        "fracture at any depth of open hole ends the push of the influx: watch for pressure that falls while pumping",
        NOT_A_SET_POINT,
        STANDARD_INVALID,
        PEOPLE,
    ],
    make,
};

const COLUMNS: &[(&str, Option<Kind>)] = &[
    ("pumped", Some(Kind::Volume)),
    ("strokes", Some(Kind::Count)),
    ("just balances, still", Some(Kind::Pressure)),
    ("highest by rock", Some(Kind::Pressure)),
    ("highest by equipment", Some(Kind::Pressure)),
    ("between the two", Some(Kind::Pressure)),
    ("influx left", Some(Kind::Volume)),
];

fn make(maker: &mut Maker) -> Result<(), Refused> {
    let scene = maker.scene;
    maker.working.heading("where the well stands");
    let formation = maker.formation_pressure()?;
    let gain = maker.gain()?;
    let weight = maker.value("weight", Some(maker.mud_weight()))?;
    let friction = maker.value("friction", Some(0.0))?;
    let fraction = maker.value("fraction", Some(1.0))?;
    let beyond = maker.value("beyond", Some(0.0))?;
    let output = pump_output(scene, &mut Off);
    let bears = Bears::new(maker);
    let (mud, gravity) = (maker.mud_weight(), scene.gravity());
    let pushed = with_kick(scene, formation, |well| {
        let annulus = well.path.annulus;
        if gain >= annulus.volume() {
            return Err(Refused::new("the gain is larger than the annulus", "check the gain and its unit"));
        }
        let bubble = Bubble { below: 0.0, volume: gain, bottom_pressure: formation };
        let state = well.path.state(bubble);
        let state = state.ok_or_else(|| Refused::new("the gas leaves the range of its correlation", "check the readings"))?;
        let gas_weight = (formation - state.top_pressure) / gain;
        let whole = annulus.volume() + beyond;
        let [first, rest] = PARTS;
        let early = (0..first).map(|part| gain * f64::from(part) / f64::from(first));
        let late = (0..=rest).map(|part| gain + (whole - gain) * f64::from(part) / f64::from(rest));
        let mut rows = Vec::new();
        let mut closed = false;
        for (part, pumped) in early.chain(late).enumerate() {
            // From the bottom up: influx that is left, mud, and what was pumped, together the annulus.
            let influx = (gain - pumped).max(0.0);
            let fresh = pumped.min(annulus.volume());
            let column = |depth: f64| {
                let (below, top) = (annulus.volume_below(depth), annulus.volume());
                let heights = |from: f64, to: f64| {
                    let (from, to) = (from.max(below), to.max(below));
                    annulus.height(to) - annulus.height(from)
                };
                let fresh_from = top - fresh;
                let light = (influx - below).max(0.0) * gas_weight;
                light + gravity * (mud * heights(influx, fresh_from) + weight * heights(fresh_from, top))
            };
            let still = (formation - column(annulus.bottom())).max(0.0);
            let rock = bears.rock.iter().filter_map(|point| {
                let limit = BullheadHighestPressure {
                    fracture_pressure: point.fracture?,
                    fraction,
                    hydrostatic: column(point.vertical_depth),
                    friction_loss: friction,
                };
                Some((limit, point.depth))
            });
            let rock = rock.min_by(|a, b| a.0.value().total_cmp(&b.0.value()));
            if let Some((limit, depth)) = rock.filter(|_| part == 0 || pumped >= whole) {
                maker.working.heading(if part == 0 { "before pumping" } else { "with all pumped" });
                maker.working.given("measured depth that breaks first", depth, Kind::Depth);
                maker.working.take(limit);
                maker.working.given("surface pressure that just balances the formation", still, Kind::Pressure);
            }
            let rock = rock.map(|(limit, _)| limit.value());
            let equipment = bears.least().map(|(_, rating)| rating);
            let highest = [rock, equipment].into_iter().flatten().reduce(f64::min);
            let between = highest.map(|highest| highest - still - friction);
            closed |= between.is_some_and(|between| between < 0.0);
            let value = |value: Option<f64>| value.map_or(Cell::Blank, Cell::Value);
            let strokes = output.map(|pump_output| KillStrokes { volume: pumped, pump_output }.value());
            rows.push(vec![
                Cell::Value(pumped),
                value(strokes),
                Cell::Value(still),
                value(rock),
                value(equipment),
                value(between),
                Cell::Value(influx),
            ]);
        }
        Ok((rows, closed))
    });
    let climbs =
        || Refused::new("the hole climbs towards its end: gas does not stand as one bubble", "follow the manual's own way");
    let (rows, closed) = pushed.ok_or_else(climbs)??;
    maker.heading("limits by volume");
    maker.say("Keep surface pressure above the figure that just balances, with the friction of the rate on top, and below the smaller of the two highest.");
    maker.table("limits by volume pumped", COLUMNS, rows);
    if closed {
        maker.pass("There is no pressure that pushes without breaking in the rows whose figure between the two is below nought.");
    }
    bears.say(maker);
    let widest = scene.annuli().iter().map(crate::geometry::Annulus::capacity).fold(0.0, f64::max);
    maker.heading("how fast");
    maker.working.heading("gas that rises against the flow");
    let speed = maker.working.take(MigrationFromWeight { mud_weight: mud });
    maker.say("What is pumped must outrun the gas that rises in the widest annulus. The speed is a screening figure from mud weight alone; gas may rise several times faster.");
    maker.figure("speed at which the gas may rise", speed, Kind::Speed);
    maker.figure("slowest pump rate that outruns it", speed * widest, Kind::FlowRate);
    Ok(())
}
