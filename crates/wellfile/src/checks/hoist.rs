//! Mast, blocks, line and drive.

use super::need;
use crate::finding::Finding;
use crate::knobs::fits_sheaves;
use crate::report::Report;
use crate::sheet::At;

pub(super) fn check(rig: &At<'_>, report: &mut Report) {
    mast(rig, report);
    if let Some(line) = rig.table("line") {
        lines(&line, "strung", rig, report);
    }
    if let Some(drive) = rig.table("drive") {
        match drive.text("kind") {
            Some("top-drive") => need(&drive, &["weight"], "a top drive hangs in the block", report),
            Some("rotary-table") if drive.number("weight").is_some_and(|weight| weight > 0.0) => report.push(
                Finding::caution("well::drive-weight", "a rotary table does not hang in the block")
                    .on(&drive, "weight", "this weight is not used")
                    .help("put the swivel's weight into `weight` of `[block]`"),
            ),
            _ => {}
        }
    }
}

fn mast(rig: &At<'_>, report: &mut Report) {
    let Some(loads) = rig.table("mast").and_then(|mast| mast.pairs("hook_load")) else { return };
    for pair in loads {
        let lines = pair.key;
        if (lines / 2.0).fract() > 1e-9 || !(2.0..=20.0).contains(&lines) {
            report.push(
                Finding::error("well::lines", format!("no block is strung with {lines} lines"))
                    .at(&pair.place, "rated for this many")
                    .help("lines between the blocks are an even number from 2 to 20; fast and dead line do not count"),
            );
        }
    }
}

/// Lines that somebody strings, against what the mast is rated for and what the sheaves take.
pub(super) fn lines(table: &At<'_>, key: &'static str, rig: &At<'_>, report: &mut Report) {
    let Some(strung) = table.whole(key) else { return };
    if let Some((mast, loads)) = rig.table("mast").and_then(|mast| mast.pairs("hook_load").map(|loads| (mast, loads)))
        && !loads.iter().any(|pair| (pair.key - f64::from(strung)).abs() < 1e-9)
    {
        let rated: Vec<String> = loads.iter().map(|pair| pair.key.to_string()).collect();
        report.push(
            Finding::error("well::lines", format!("the mast has no rating for {strung} lines"))
                .on(table, key, "this many lines")
                .on(&mast, "hook_load", "are not among these")
                .help(format!("it is rated for {}; a rating never carries over to other lines", rated.join(", "))),
        );
    }
    let (Some(crown), Some(block)) = (rig.table("crown"), rig.table("block")) else { return };
    let (Some(above), Some(below)) = (crown.whole("sheaves"), block.whole("sheaves")) else { return };
    if !fits_sheaves(strung, above, below) {
        let most = 2 * below.min(above.saturating_sub(1));
        report.push(
            Finding::error("well::lines", format!("{strung} lines do not fit the sheaves"))
                .on(table, key, "this many lines")
                .on(&block, "sheaves", "sheaves of the block")
                .on(&crown, "sheaves", "sheaves of the crown, one of them for the fast line")
                .help(format!("these blocks take an even number of lines, at most {most}")),
        );
    }
}
