//! Fifty people nudge at once: how long each waits, what a nudge costs, how much memory that takes. Each asks the next
//! what-if as soon as the last is answered, and no two ask the same, so that nothing kept serves twice. First all turn one knob, those
//! that cost most among them; then each turns another.
//!
//! `cargo bench -p rigwright-web --bench load`. `docs/speed.md` tells how the figures were taken.
#![allow(clippy::print_stdout, reason = "a program for the terminal")]

use axum::body::Body;
use http_body_util::BodyExt;
use hyper::Request;
use rigwright_web::{Server, router};
use std::error::Error;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};
use tower::ServiceExt;

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

const PEOPLE: usize = 50;
const NUDGES: usize = 40;

type Fault = Box<dyn Error + Send + Sync>;

fn main() -> Result<(), Fault> {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build()?;
    let hoisting = ("rig.drawworks.hoisting_speed", 60.0, 0.02, "ft/min");
    let last = ("section[2].mud.weight", 14.0, 0.0005, "ppg");
    for (what, well, knobs) in [
        ("mud weight of the last section", "ostrick.toml", &[("section[2].mud.weight", 10.5, 0.001, "ppg")][..]),
        ("mud weight of the first section", "ostrick.toml", &[("section[0].mud.weight", 9.0, 0.0005, "ppg")]),
        ("hoisting speed of the rig", "ostrick.toml", &[hoisting]),
        ("mud weight of the last section", "tolvane.toml", &[last]),
        (
            "seven knobs in turn",
            "tolvane.toml",
            &[
                ("section[0].mud.weight", 1.14, 0.00002, "sg"),
                ("section[1].mud.weight", 1.44, 0.00002, "sg"),
                last,
                ("section[2].tripping.pulling_speed", 6.0, 0.001, "m/min"),
                ("section[2].drilling.weight_on_bit", 8.0, 0.001, "t"),
                ("section[2].drilling.penetration_rate", 8.0, 0.001, "m/h"),
                hoisting,
            ],
        ),
    ] {
        let url = |turn: usize| {
            let (entry, low, step, unit) = knobs[turn % knobs.len()];
            format!("/sheet?well={well}&live=drag&if.{entry}={:.5}+{unit}", low + step * turn as f64)
        };
        runtime.block_on(nudged(what, well, (0..PEOPLE * NUDGES).map(url).collect()))?;
    }
    Ok(())
}

async fn nudged(what: &str, well: &str, urls: Vec<String>) -> Result<(), Fault> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let clock = || jiff::Timestamp::UNIX_EPOCH;
    let routes = router(Arc::new(Server::new(&folder, None, "127.0.0.1:7117".parse()?, None, clock)?));
    get(&routes, &format!("/sheet?well={well}")).await?;
    let (start, busy) = (Instant::now(), processor_time());
    let people: Vec<_> = (0..PEOPLE)
        .map(|person| {
            let (routes, mine) = (routes.clone(), urls.iter().skip(person).step_by(PEOPLE).cloned().collect::<Vec<_>>());
            tokio::spawn(async move {
                let mut waits = Vec::with_capacity(mine.len());
                for url in mine {
                    let asked = Instant::now();
                    get(&routes, &url).await?;
                    waits.push(asked.elapsed());
                }
                Ok::<_, Fault>(waits)
            })
        })
        .collect();
    let mut waits: Vec<Duration> = Vec::new();
    for person in people {
        waits.extend(person.await??);
    }
    waits.sort();
    let at = |share: f64| waits[((waits.len() - 1) as f64 * share) as usize].as_secs_f64() * 1e3;
    let cost = processor_time().zip(busy).map(|(now, then)| (now - then) * 1e3 / waits.len() as f64);
    println!(
        "{what} of {well}: {} nudges by {PEOPLE} people in {:.1} s; wait p50 {:.0} ms, p99 {:.0} ms, most {:.0} ms; {} ms of \
         processor a nudge; {} kB at most",
        waits.len(),
        start.elapsed().as_secs_f64(),
        at(0.5),
        at(0.99),
        at(1.0),
        cost.map_or_else(|| "?".to_owned(), |cost| format!("{cost:.1}")),
        memory().unwrap_or_else(|| "?".to_owned()),
    );
    Ok(())
}

async fn get(routes: &axum::Router, url: &str) -> Result<(), Fault> {
    let request = Request::get(url).header("host", "127.0.0.1:7117").body(Body::empty())?;
    let response = routes.clone().oneshot(request).await?;
    let status = response.status();
    let length = response.into_body().collect().await?.to_bytes().len();
    if !status.is_success() || length < 10_000 {
        return Err(format!("{url}: {status}, {length} bytes").into());
    }
    Ok(())
}

/// Processor time of this process. [s]
fn processor_time() -> Option<f64> {
    const TICKS: f64 = 100.0;
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    let fields: Vec<&str> = stat.rsplit_once(')')?.1.split_whitespace().collect();
    Some((fields.get(11)?.parse::<f64>().ok()? + fields.get(12)?.parse::<f64>().ok()?) / TICKS)
}

/// The most memory that this process has held. [kB]
fn memory() -> Option<String> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    Some(status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?.trim().trim_end_matches(" kB").to_owned())
}
