//! Preventers on the sea bed: the choke line takes the place of the riser, and its friction stands on the well.

use super::{Ground, Remark, Slow};
use crate::control::subsea::reading_loss;
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
}

/// The choke line; `None` with preventers at surface.
pub(super) fn choke_line<R: Recorder>(ground: Ground, slow: Option<&Slow>, rec: &mut R) -> Option<ChokeLine> {
    let Ground { scene, order, kill_weight, .. } = ground;
    let (_, length) = scene.fit().riser(order.section).zip(scene.fit().well.sea_bed())?;
    rec.heading("choke line");
    let loss = slow.and_then(|slow| slow.choke_line_loss);
    let casing_pressure = order.readings.casing_pressure;
    let hold = |choke_line_friction: f64, rec: &mut R| rec.take(CasingPressureOnRate { casing_pressure, choke_line_friction });
    Some(ChokeLine {
        length,
        measured: slow.is_some_and(|slow| slow.reading.choke_line_loss.is_some()),
        loss,
        with_kill_mud: slow.and_then(|slow| reading_loss(scene, &slow.reading, kill_weight, rec)),
        on_rate: loss.map(|loss| hold(loss, rec)),
        overbalance: loss.map(|loss| (loss - casing_pressure).max(0.0)),
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
