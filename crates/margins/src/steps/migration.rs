//! Gas migration from the rise of casing pressure in a closed well, and the time until something bears no more.

use super::gas::{Bears, Column};
use super::{Cell, GAIN, Input, Maker, Method, PEOPLE, Refused, SICP, SINGLE_BUBBLE, STANDARD_INVALID};
use crate::fields::influx::with_kick;
use crate::geometry;
use rigwright_physics::control::influx::{MigrationFromPressure, MigrationFromWeight};
use rigwright_physics::{Kind, Range, Recorder};

pub(super) static METHOD: Method = Method {
    slug: "migration",
    title: "gas migration in a closed well",
    asks: "casing pressure rises while the well is shut in: how fast the gas rises at least, and how long until rock or equipment bears no more",
    inputs: &[
        Input { key: "sicp", otherwise: None, ..SICP },
        Input {
            key: "later",
            kind: Kind::Pressure,
            meaning: "casing pressure read later, nothing let out in between",
            otherwise: None,
            must: Range::NON_NEGATIVE,
        },
        Input {
            key: "after",
            kind: Kind::Time,
            meaning: "time between the two readings",
            otherwise: None,
            must: Range::between(1.0, 1e6),
        },
        GAIN,
    ],
    cautions: &[
        "the rise tells the least speed: casing, rock and mud give way and filtrate is lost, which all hide migration; no rise is no proof that gas does not rise",
        SINGLE_BUBBLE,
        STANDARD_INVALID,
        PEOPLE,
    ],
    make,
};

const COLUMNS: &[(&str, Option<Kind>)] =
    &[("what bears", None), ("it has left", Some(Kind::Pressure)), ("passed after", Some(Kind::Time))];

fn make(maker: &mut Maker) -> Result<(), Refused> {
    let scene = maker.scene;
    maker.working.heading("the two readings");
    let first = maker.value("sicp", None)?;
    let later = maker.value("later", None)?;
    let time = maker.value("after", None)?;
    let gain = maker.gain()?;
    if later < first {
        return Err(Refused::new(
            "casing pressure fell: that is no migration",
            "a leak, losses or cooling does that; nothing may be let out between the readings",
        ));
    }
    let (mud_weight, gravity) = (maker.mud_weight(), scene.gravity());
    let pressure_rise = later - first;
    let speed = maker.working.take(MigrationFromPressure { pressure_rise, time, mud_weight, gravity });
    let screening = maker.working.take(MigrationFromWeight { mud_weight });
    maker.heading("how fast it rises");
    maker.figure("rise of casing pressure in an hour", pressure_rise / time * 3_600.0, Kind::Pressure);
    maker.figure("speed told by the rise, at least", speed, Kind::Speed);
    maker.figure("speed by mud weight alone, a screening figure", screening, Kind::Speed);
    if pressure_rise <= 0.0 {
        maker.warn("No rise was read. That is no proof that the gas does not rise: read again.");
        return Ok(());
    }
    let bears = Bears::new(maker);
    let gradient = maker.mud_gradient();
    let bottom = scene.vertical_depth(scene.situation.hole_depth);
    let now = with_kick(scene, gradient * bottom, |well| {
        let column = Column { path: well.path, gradient };
        if gain >= well.path.annulus.volume() {
            return None;
        }
        let start = column.under(0.0, gain, first)?;
        let there = column.moved(start.state.amount, gain, later)?;
        let top = well.path.annulus.vertical_depth(there.bubble.below + gain);
        let left = bears.left(|point| column.pressure(&there, point.vertical_depth));
        Some((top, left.map(|(left, _)| left)))
    });
    let Some(Some((top, rock))) = now else {
        maker.warn("The readings do not fit one bubble of gas in this annulus: no times are told.");
        return Ok(());
    };
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    let mut row = |name: &'static str, left: Option<f64>| {
        let value = |value: Option<f64>| value.map_or(Cell::Blank, Cell::Value);
        let after = left.map(|left| (left / pressure_rise * time).max(0.0));
        rows.push(vec![Cell::Words(name), value(left), value(after)]);
    };
    row("weakest rock", rock);
    for (name, rating) in &bears.surface {
        row(name, rating.map(|rating| rating - later));
    }
    if rock.is_some_and(|rock| rock < 0.0) || bears.least().is_some_and(|(_, least)| least < later) {
        maker.pass("Something is asked for more than it bears already.");
    }
    maker.heading("how long the well may stay closed at this rise");
    maker.table("time from the later reading", COLUMNS, rows);
    bears.say(maker);
    maker.heading("where the gas is");
    maker.figure("vertical depth of its top, told by the readings", top, Kind::Depth);
    let shoe = scene.vertical_depth(geometry::open_from(scene.fit(), scene.situation.section));
    if top > shoe && speed > 0.0 {
        maker.figure("time until its top is at the shoe", (top - shoe) / speed, Kind::Time);
    }
    if speed > 0.0 {
        maker.figure("time until its top is at surface, closed in and at this speed", top / speed, Kind::Time);
    }
    maker.say("Let mud out before a limit is passed: `steps WELL volumetric`.");
    Ok(())
}
