//! Preventers on the sea bed: the choke line takes the place of the riser, and its friction stands on the well.

use super::{Ground, Remark, Slow};
use crate::control::subsea::{reading_loss, side_by_side};
use rigwright_physics::circulating::losses::Flow;
use rigwright_physics::circulating::passage::BoreCapacity;
use rigwright_physics::control::subsea::CasingPressureOnRate;
use rigwright_physics::{Kind, Recorder};

/// The choke line of a sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChokeLine {
    /// Its length, from the sea bed to the rig. [m]
    pub length: f64,
    /// Whether its loss was measured; else it is told by the flow curve of the mud.
    pub measured: bool,
    /// Its loss at the slow rate with the mud in the hole; `None` without a slow rate or readings of the mud. [Pa]
    pub loss: Option<f64>,
    /// The same with kill mud: what stands on the bottom at the end with the choke wide open. [Pa]
    pub with_kill_mud: Option<f64>,
    /// Pressure to hold at the choke once the pump is on rate. [Pa]
    pub on_rate: Option<f64>,
    /// What the choke cannot give back: it stands on the whole well while pumping. [Pa]
    pub overbalance: Option<f64>,
    /// Choke and kill line together; `None` where nobody can tell the loss.
    pub both: Option<BothLines>,
}

/// Returns through choke and kill line together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BothLines {
    /// Share of the flow in the choke line, so that both lines lose the same. [-]
    pub share: f64,
    /// Loss at the slow rate with the mud in the hole. [Pa]
    pub loss: f64,
    /// The same with kill mud. [Pa]
    pub with_kill_mud: Option<f64>,
    /// Pressure to hold at the choke once the pump is on rate. [Pa]
    pub on_rate: f64,
    /// What the choke cannot give back. [Pa]
    pub overbalance: f64,
    /// Volume of both lines. [m³]
    pub volume: f64,
    /// Strokes that fill both lines. [-]
    pub strokes: f64,
}

/// The choke line; `None` with preventers at surface.
pub(super) fn choke_line<R: Recorder>(ground: Ground, slow: Option<&Slow>, rec: &mut R) -> Option<ChokeLine> {
    let Ground { scene, order, kill_weight, .. } = ground;
    let (_, length) = scene.fit().riser(order.section).zip(scene.fit().well.sea_bed())?;
    rec.heading("choke line");
    let loss = slow.and_then(|slow| slow.choke_line_loss);
    let casing_pressure = order.readings.casing_pressure;
    let hold = |choke_line_friction: f64, rec: &mut R| rec.take(CasingPressureOnRate { casing_pressure, choke_line_friction });
    let with_kill_mud = slow.and_then(|slow| reading_loss(scene, &slow.reading, kill_weight, rec));
    let both = slow.zip(loss).and_then(|(slow, loss)| both_lines(ground, slow, [Some(loss), with_kill_mud], rec));
    Some(ChokeLine {
        both,
        length,
        measured: slow.is_some_and(|slow| slow.reading.choke_line_loss.is_some()),
        loss,
        with_kill_mud,
        on_rate: loss.map(|loss| hold(loss, rec)),
        overbalance: loss.map(|loss| (loss - casing_pressure).max(0.0)),
    })
}

/// The same through both lines: a loss that was measured through the choke line falls as the flow curve says.
fn both_lines<R: Recorder>(
    ground: Ground,
    slow: &Slow,
    [loss, with_kill_mud]: [Option<f64>; 2],
    rec: &mut R,
) -> Option<BothLines> {
    let Ground { scene, order, volumes, .. } = ground;
    let (riser, length) = scene.fit().riser(order.section).zip(scene.fit().well.sea_bed())?;
    let rate = slow.reading.pump_speed * volumes.pump_output;
    let parted = side_by_side(scene, Flow { rate, density: scene.section().mud.weight })?;
    rec.heading("choke and kill line together");
    rec.given("share of the flow in the choke line, so that both lose the same", parted.share, Kind::Fraction);
    rec.given("loss of both over that of the choke line alone, by the flow curve", parted.of_one, Kind::Fraction);
    let loss = parted.of_one * loss?;
    rec.given("loss of both", loss, Kind::Pressure);
    let casing_pressure = order.readings.casing_pressure;
    let on_rate = rec.take(CasingPressureOnRate { casing_pressure, choke_line_friction: loss });
    let bore = |inner_diameter: f64, rec: &mut R| rec.take(BoreCapacity { inner_diameter }) * order.constants.capacity;
    let volume = (bore(riser.choke_line, rec) + bore(riser.kill_line, rec)) * length;
    Some(BothLines {
        share: parted.share,
        loss,
        with_kill_mud: with_kill_mud.map(|loss| parted.of_one * loss),
        on_rate,
        overbalance: (loss - casing_pressure).max(0.0),
        volume,
        strokes: volumes.strokes(volume),
    })
}

impl ChokeLine {
    pub(super) fn cautions(&self) -> Vec<Remark> {
        let mut cautions = vec![Remark::new(
            "gas in the choke line: its mud is gone within few strokes, so close in the choke in time and open it when mud follows; slow the pump before gas comes. The slow rate is taken to have been read up the riser",
        )];
        match self.loss {
            None => cautions.push(Remark::new(
                "the loss in the choke line is unknown, not nought: measure it (`section[].slow_rate[].choke_line_loss`), or hold the kill line still while the pump comes to rate",
            )),
            Some(loss) if !self.measured => cautions.push(
                Remark::new("the loss in the choke line was not measured: it is told by the flow curve; cold mud that has gelled loses more")
                    .with("loss", loss, Kind::Pressure),
            ),
            Some(_) => {}
        }
        if let Some(over) = self.overbalance.filter(|over| *over > 0.0) {
            cautions.push(
                Remark::new("the choke line loses more than the casing shows shut in: the rest stands on the well while pumping; pump slower, or through choke and kill line together")
                    .with("on the well", over, Kind::Pressure),
            );
        }
        cautions.push(Remark::new(
            "after the kill: gas is trapped under the closed preventer; clear it, then displace the riser to kill mud, before the preventers are opened. What stands in the riser may hold gas and unload",
        ));
        cautions
    }
}
