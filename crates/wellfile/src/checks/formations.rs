//! Layers of rock: their order, and the order of their pressures.

use super::{more, no_twins};
use crate::build::{base, rock_pressure, top};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::At;
use rigwright_physics::trajectory::Path;

pub(super) fn check(well: &At<'_>, path: Option<&Path>, report: &mut Report) {
    let layers = well.list("formation");
    let bottom = well.list("section").last().and_then(|section| section.number("bottom"));
    let end = path.zip(bottom).map(|(path, bottom)| path.vertical_depth_at(bottom));
    no_twins(&layers, "formations", report);
    begins_at_ground(well, &layers, report);
    for (index, layer) in layers.iter().enumerate() {
        if index > 0 && layer.held("top").is_none() && !layer.refused("top") {
            super::need(layer, &["top"], "only the first layer may leave it out", report);
        }
        order(&layers, index, end, report);
        pressures(&layers, index, end, report);
    }
}

fn begins_at_ground(well: &At<'_>, layers: &[At<'_>], report: &mut Report) {
    let (Some(first), Some(elevation)) = (layers.first(), well.number("elevation")) else { return };
    let ground = elevation + well.number("water_depth").unwrap_or(0.0);
    if first.number("top").is_some_and(|top| more(top, ground)) {
        report.push(
            Finding::error("well::first-top", "the first layer begins below the ground")
                .on(first, "top", "nothing is known of the rock above this")
                .help("begin the table at or above ground or sea bed: `top = \"0 ft\"`"),
        );
    }
}

fn order(layers: &[At<'_>], index: usize, end: Option<f64>, report: &mut Report) {
    let layer = &layers[index];
    let (Some(top), Some(base)) = (top(layers, index), base(layers, index, end)) else { return };
    let next = layers.get(index + 1);
    let given = layer.held("base").is_some();
    if let Some((next, next_top)) = next.and_then(|next| Some((next, next.number("top")?))) {
        if !more(next_top, top) {
            report.push(
                Finding::error("well::tops-order", "a layer does not begin below the one before it")
                    .on(next, "top", "this top")
                    .on(layer, "top", "is not below this one")
                    .help("list layers from the top down"),
            );
            return;
        }
        if given && (more(base, next_top) || more(next_top, base)) {
            report.push(
                Finding::error("well::layers-join", "a layer does not end where the next begins")
                    .on(layer, "base", "this base")
                    .on(next, "top", "is not this top")
                    .help("leave `base` out: a layer ends where the next begins"),
            );
            return;
        }
    }
    if !more(base, top) {
        let finding = if given {
            Finding::error("well::layer-thickness", "a layer ends above its top").on(layer, "base", "this base").on(
                layer,
                "top",
                "is not below this top",
            )
        } else {
            Finding::error("well::layer-thickness", "the last layer begins below the end of the well")
                .on(layer, "top", "this top")
                .help("leave the layer out, or say where it ends with `base`")
        };
        report.push(finding);
    }
}

fn pressures(layers: &[At<'_>], index: usize, end: Option<f64>, report: &mut Report) {
    let layer = &layers[index];
    let (Some(top), Some(base)) = (top(layers, index), base(layers, index, end)) else { return };
    let ends = |key: &str| layer.pressures(key).map(|[above, below]| [rock_pressure(above, top), rock_pressure(below, base)]);
    let Some(fracture) = ends("fracture") else { return };
    let pairs = [
        ("pore", "pore pressure", "rock that holds fluid above its fracture pressure would have opened already"),
        ("collapse", "collapse pressure", "no mud weight would keep this hole open without breaking it; compare with the report"),
    ];
    for (key, what, help) in pairs {
        let Some(lower) = ends(key) else { continue };
        let places = [("top", 0), ("base", 1)];
        if let Some((place, _)) = places.into_iter().find(|(_, at)| more(lower[*at], fracture[*at])) {
            report.push(
                Finding::error(
                    "well::pressures-order",
                    format!("the {what} is above the fracture pressure at the {place} of the layer"),
                )
                .on(layer, key, format!("this {what}"))
                .on(layer, "fracture", "opens the rock before")
                .help(help),
            );
        }
    }
}
