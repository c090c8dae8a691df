//! Ten thousand requests that no browser would send: nothing falls, and what is served stays served.

use crate::site::{Site, field};
use axum::body::Body;
use hyper::{Request, StatusCode};
use hyper_util::rt::TokioIo;
use hyper_util::service::TowerToHyperService;
use tokio::io::{AsyncReadExt, AsyncWriteExt};

/// Random numbers that are the same in every run: xorshift64 of G. Marsaglia, "Xorshift RNGs" (2003).
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn among<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[(self.next() % all.len() as u64) as usize]
    }

    fn bytes(&mut self, most: u64) -> Vec<u8> {
        let count = self.next() % most;
        (0..count).map(|_| self.next() as u8).collect()
    }
}

/// Bytes as an address bears them.
fn escaped(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("%{byte:02x}")).collect()
}

const PATHS: [&str; 22] = [
    "/",
    "/sheet",
    "/answer",
    "/course.csv",
    "/pictures",
    "/pictures.csv",
    "/beside",
    "/inputs",
    "/write",
    "/edit",
    "/new",
    "/survey",
    "/kill",
    "/papers",
    "/paper",
    "/paper.xlsx",
    "/due",
    "/formulas/%00",
    "/manual/..%2f..",
    "/settings",
    "/enter",
    "/assets/../page.css",
];
const KEYS: [&str; 16] = [
    "well",
    "section",
    "question",
    "show",
    "paper",
    "record",
    "from",
    "to",
    "units",
    "kept",
    "sidpp",
    "gain",
    "hole",
    "if.section[0].mud.weight",
    "if.rig.line.strung",
    "if.%00[[].",
];
const NAMES: [&str; 10] = [
    "../ostrick.toml",
    "/etc/passwd",
    "rigs/../../x",
    "..%2f..%2fetc%2fpasswd",
    "C:\\\\windows",
    "ostrick.toml%00",
    ".git/config",
    "rigs",
    "",
    "ostrick.toml/..",
];
const FORMS: [&str; 10] = ["/write", "/undo", "/edit", "/put", "/check", "/new", "/survey", "/settings", "/enter", "/leave"];

fn query(dice: &mut Dice) -> String {
    let mut pairs = Vec::new();
    for _ in 0..=dice.next() % 6 {
        let key = *dice.among(&KEYS);
        let value = match (key, dice.next() % 4) {
            // A name that is served now and then, so that the rest of the address is looked at.
            ("well", 0) if dice.next().is_multiple_of(20) => "ostrick.toml".to_owned(),
            ("well", _) => (*dice.among(&NAMES)).to_owned(),
            (_, 0) => "1e999".to_owned(),
            (_, 1) => format!("-{}", dice.next()),
            _ => escaped(&dice.bytes(24)),
        };
        pairs.push(format!("{key}={value}"));
    }
    pairs.join("&")
}

#[tokio::test]
async fn ten_thousand_malformed_requests_bring_nothing_down() {
    let site = Site::new();
    let before = site.get("/sheet?well=ostrick.toml").await.text;
    let secret = field(&site.get("/new").await.text, "form_secret");
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let files = || std::fs::read_dir(&site.folder).expect("listed").count();
    let there = files();

    for _ in 0..5_000 {
        let url = format!("{}?{}", dice.among(&PATHS), query(&mut dice));
        let answer = site.get(&url).await;
        assert!(!answer.status.is_server_error(), "{url}: {}", answer.status);
        assert!(!answer.text.contains("root:x"), "{url}");
    }
    for turn in 0..3_000 {
        // With our secret, so that what comes behind it is read; but never a form that could be meant.
        let mut body = format!("form_secret={secret}&").into_bytes();
        body.extend(if turn % 2 == 0 { dice.bytes(200) } else { query(&mut dice).into_bytes() });
        let path = *dice.among(&FORMS);
        let request = Request::post(path).header("host", "127.0.0.1:7117").body(Body::from(body)).expect("a request");
        let answer = site.send(request).await;
        assert!(!answer.status.is_server_error(), "{path}: {}", answer.status);
    }
    for turn in 0..2_000 {
        let mut bytes = dice.bytes(400);
        if turn % 2 == 0 {
            bytes.splice(0..0, b"GET /sheet?well=".iter().copied());
            bytes.extend(b" HTTP/1.1\r\nhost: 127.0.0.1:7117\r\n\r\n");
        }
        let (mut ours, theirs) = tokio::io::duplex(1 << 16);
        let served = hyper::server::conn::http1::Builder::new()
            .serve_connection(TokioIo::new(theirs), TowerToHyperService::new(site.router()));
        let serving = tokio::spawn(async move { drop(served.await) });
        ours.write_all(&bytes).await.expect("sent");
        ours.shutdown().await.expect("closed");
        let mut answer = Vec::new();
        // Whether it answers or hangs up, it ends.
        drop(ours.read_to_end(&mut answer).await);
        serving.await.expect("no panic leaves the connection");
        assert!(!answer.starts_with(b"HTTP/1.1 5"), "{}", String::from_utf8_lossy(&bytes));
    }

    assert_eq!(files(), there, "nothing was written");
    let after = site.get("/sheet?well=ostrick.toml").await;
    assert_eq!(after.status, StatusCode::OK);
    assert_eq!(after.text, before);
}
