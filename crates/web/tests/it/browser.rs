//! The page in a real browser: Chromium, driven over WebDriver. Built with the feature `browser`, since Chromium and its
//! driver must be on the machine; `cargo xtask test` installs them and turns it on.

use crate::site::copy;
use rigwright_web::{Server, router};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::Duration;
use thirtyfour::prelude::*;

/// A driver, a browser and a server of a copy of the examples.
struct Browser {
    page: WebDriver,
    driver: Child,
    url: String,
    folder: PathBuf,
}

impl Browser {
    async fn open() -> Browser {
        let folder = tempfile_folder();
        copy(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples"), &folder);
        let listener = tokio::net::TcpListener::bind("127.0.0.1:0").await.expect("a port");
        let address = listener.local_addr().expect("an address");
        let clock = || "2026-11-25T06:00:00Z".parse().expect("a moment");
        let server = Server::new(&folder, Some("ostrick.toml".to_owned()), address, None, clock).expect("a server");
        let routes = router(Arc::new(server));
        tokio::spawn(async move { axum::serve(listener, routes).await });

        let port = std::net::TcpListener::bind("127.0.0.1:0").and_then(|free| free.local_addr()).expect("a port").port();
        let driver = Command::new("chromedriver")
            .arg(format!("--port={port}"))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("chromedriver is installed; `cargo xtask test` installs it");
        let mut wanted = DesiredCapabilities::chrome();
        let profile = folder.join(".profile");
        for flag in [
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--hide-scrollbars",
            &format!("--user-data-dir={}", profile.display()),
        ] {
            wanted.add_arg(flag).expect("a flag");
        }
        let at = format!("http://127.0.0.1:{port}");
        let mut tries = 0;
        let page = loop {
            match WebDriver::new(&at, wanted.clone()).await {
                Ok(page) => break page,
                Err(_) if tries < 50 => tries += 1,
                Err(error) => panic!("{error}"),
            }
            tokio::time::sleep(Duration::from_millis(200)).await;
        };
        Browser { page, driver, url: format!("http://{address}"), folder }
    }

    async fn go(&self, path: &str) {
        self.page.goto(format!("{}{path}", self.url)).await.expect("the page loads");
    }

    async fn find(&self, css: &str) -> WebElement {
        let found = self.page.query(By::Css(css)).wait(Duration::from_secs(10), Duration::from_millis(50)).first().await;
        found.unwrap_or_else(|error| panic!("{css}: {error}"))
    }

    async fn text(&self, css: &str) -> String {
        // The page may put a fresh part in place of the one that was found.
        for _ in 0..20 {
            if let Ok(text) = self.find(css).await.text().await {
                return text;
            }
        }
        panic!("{css} never stands still");
    }

    /// Waits until a text shows.
    async fn until(&self, css: &str, wanted: &str) {
        for _ in 0..200 {
            if self.text(css).await.contains(wanted) {
                return;
            }
            tokio::time::sleep(Duration::from_millis(50)).await;
        }
        panic!("{css} never says {wanted}: {}", self.text(css).await);
    }

    /// Waits until a script says so.
    async fn holds(&self, script: &str) {
        for _ in 0..300 {
            if self.run(script).await == true {
                return;
            }
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
        panic!("never true: {script}");
    }

    async fn run(&self, script: &str) -> serde_json::Value {
        self.page.execute(script, vec![]).await.expect("the script runs").json().clone()
    }

    async fn look(&self, name: &str, wide: u32) {
        // A window has a least width; the screen that is put in its place has none.
        let screen = serde_json::json!({ "width": wide, "height": 1000, "deviceScaleFactor": 1, "mobile": false });
        self.page.cdp().send_raw("Emulation.setDeviceMetricsOverride", screen).await.expect("a screen");
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("screenshots");
        std::fs::create_dir_all(&folder).expect("a folder");
        self.page.screenshot(&folder.join(format!("{name}-{wide}.png"))).await.expect("a picture");
    }

    async fn close(mut self) {
        self.page.clone().quit().await.expect("the browser closes");
        let _ = self.driver.kill();
        let _ = self.driver.wait();
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

fn tempfile_folder() -> PathBuf {
    use std::sync::atomic::{AtomicUsize, Ordering};
    static NEXT: AtomicUsize = AtomicUsize::new(0);
    let number = NEXT.fetch_add(1, Ordering::Relaxed);
    Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("browser-{}-{number}", std::process::id()))
}

#[tokio::test(flavor = "multi_thread")]
async fn from_the_weakest_link_to_a_change_in_the_file() {
    let browser = Browser::open().await;
    browser.go("/").await;
    assert!(browser.text("#weakest").await.contains("Weakest link"));

    // A working, and back.
    browser.find("table.sheet a.cell").await.click().await.expect("it opens");
    assert!(browser.text("main").await.contains("Source: "));
    browser.page.back().await.expect("back works");

    // The mud weight up by a step: the sheet answers, says what was, and bears the word.
    let field = "[id='if.section[2].mud.weight']";
    browser.run("document.querySelectorAll('#turn details').forEach(d => d.open = true)").await;
    let before = browser.find(field).await.prop("value").await.expect("a value").expect("a value");
    browser.find("a.nudge[data-for='if.section[2].mud.weight'][aria-label$='up']").await.click().await.expect("it turns");
    browser.find("body.what-if").await;
    browser.find(".was").await;
    let after = browser.find(field).await.prop("value").await.expect("a value").expect("a value");
    assert_ne!(before, after);
    // The address follows when the knob rests.
    let mut address = String::new();
    for _ in 0..100 {
        address = browser.page.current_url().await.expect("an address").to_string();
        if address.contains("if.section") {
            break;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    assert!(address.contains("if.section"), "{address}");

    // The address holds it all: reloaded, it is the same; back takes it away.
    browser.page.refresh().await.expect("it reloads");
    assert_eq!(browser.find(field).await.prop("value").await.expect("a value"), Some(after.clone()));
    browser.page.back().await.expect("back works");
    browser.until("body", "What if").await;
    for _ in 0..100 {
        if browser.find(field).await.prop("value").await.ok().flatten().as_deref() == Some(before.as_str()) {
            break;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    assert_eq!(browser.find(field).await.prop("value").await.expect("a value"), Some(before));
    browser.page.forward().await.expect("forward works");
    browser.find("body.what-if").await;

    // Written back: the difference first, comments kept.
    browser.find(".band .acts a").await.click().await.expect("it opens");
    assert!(browser.text("pre.difference ins").await.contains(&after));
    browser.find("form[action='/write'] button").await.click().await.expect("it writes");
    browser.until("main", "Written.").await;
    let text = std::fs::read_to_string(browser.folder.join("ostrick.toml")).expect("the file");
    assert!(text.contains(&format!("\"{after}\"")) && text.contains("#"));
    browser.go("/").await;
    assert_eq!(browser.find(field).await.prop("value").await.expect("a value"), Some(after));
    assert!(browser.page.query(By::Css("body.what-if")).nowait().exists().await.is_ok_and(|there| !there));
    browser.close().await;
}

#[tokio::test(flavor = "multi_thread")]
async fn a_slider_answers_while_it_moves() {
    let browser = Browser::open().await;
    browser.go("/").await;
    browser.run("document.querySelectorAll('#turn details, #basis details').forEach(d => d.open = true)").await;
    browser
        .run(
            "const s = document.querySelector(\"input[type=range][data-for='if.section[2].mud.weight']\"); \
             if (s.hidden) throw 'hidden'; s.value = Number(s.max); s.dispatchEvent(new Event('input', {bubbles: true}));",
        )
        .await;
    browser.find(".was").await;
    // When it rests, the address and the remedy follow.
    for _ in 0..100 {
        if browser.page.current_url().await.expect("an address").as_str().contains("if.section") {
            break;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    assert!(browser.page.current_url().await.expect("an address").as_str().contains("if.section"));
    assert!(!browser.text("#weakest").await.contains("looking"));
    // What was opened stays open.
    browser.holds("return [...document.querySelectorAll('#basis details')].every(d => d.open)").await;
    browser.close().await;
}

/// The first Tab leads past the head; Enter opens a cell; the focus shows.
#[tokio::test(flavor = "multi_thread")]
async fn the_keyboard_alone_is_enough() {
    let browser = Browser::open().await;
    browser.go("/").await;
    let tab = async || browser.page.action_chain().send_keys(Key::Tab).perform().await;
    // What has the focus takes the key.
    let enter = async || browser.page.active_element().await?.send_keys(Key::Enter).await;
    tab().await.expect("a key");
    assert_eq!(browser.run("return document.activeElement.className").await, "skip");
    enter().await.expect("a key");
    for _ in 0..40 {
        if browser.run("return document.activeElement.id").await == "main" {
            break;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    assert_eq!(browser.run("return document.activeElement.id").await, "main");
    let (mut steps, mut way) = (0, Vec::new());
    while browser.run("return document.activeElement.classList.contains('cell')").await != true {
        tab().await.expect("a key");
        steps += 1;
        let here = browser.run("return document.activeElement.outerHTML.slice(0, 90)").await;
        way.push(here.to_string());
        assert!(steps < 12, "the first cell is near: {way:#?}");
    }
    assert_ne!(browser.run("return getComputedStyle(document.activeElement).outlineStyle").await, "none");
    enter().await.expect("a key");
    browser.until("main", "Working").await;
    browser.close().await;
}

/// The form follows the caret, a field goes into the text, and what is wrong is said at its field as one types.
#[tokio::test(flavor = "multi_thread")]
async fn text_and_form_stay_in_step() {
    let browser = Browser::open().await;
    browser.go("/edit?well=ostrick.toml").await;
    let caret = "const t = document.getElementById('text'); const at = t.value.indexOf('11.5 ppg', t.value.indexOf('name = \"8 1/2 in\"')); \
                 t.focus(); t.setSelectionRange(at, at + 8); t.dispatchEvent(new MouseEvent('click', {bubbles: true}));";
    browser.run(caret).await;
    let weight = browser.find("[id='if.section[2].mud.weight']").await;
    assert_eq!(weight.prop("value").await.expect("a value").as_deref(), Some("11.5 ppg"));
    // A weight that stands nowhere else in the file: what is waited for is not there before.
    weight.send_keys(Key::Control + "a").await.expect("all of it");
    weight.send_keys("11.83 ppg" + Key::Tab).await.expect("typed");
    browser.holds("return document.getElementById('text').value.includes('weight = \"11.83 ppg\"')").await;
    // Typed into the text, a fault shows at the field beside it and in the list.
    browser
        .run(
            "const t = document.getElementById('text'); t.value = t.value.replace('weight = \"11.83 ppg\"', 'weight = \"heavy\"'); \
             t.dispatchEvent(new Event('input', {bubbles: true}));",
        )
        .await;
    browser.holds("return !!document.getElementById('if.section[2].mud.weight')?.hasAttribute('aria-invalid')").await;
    browser.until("#findings", "heavy").await;
    // A part of the trade's tables.
    browser.run("document.querySelectorAll('#fill details').forEach(d => d.open = true)").await;
    browser.find("#length").await.send_keys("60 ft").await.expect("typed");
    browser.find("button[value='part']").await.click().await.expect("added");
    browser.holds("return document.getElementById('text').value.includes('length = \"60 ft\"')").await;
    browser.close().await;
}

/// On paper of both sizes the sheet and a picture stand alone, and nothing runs over the edge.
#[tokio::test(flavor = "multi_thread")]
async fn what_is_printed_fits_the_paper() {
    let browser = Browser::open().await;
    for path in ["/sheet?well=tolvane.toml", "/pictures?well=ostrick.toml&show=mast", "/kill?well=ostrick.toml&section=2"] {
        browser.go(path).await;
        browser.page.cdp().send_raw("Emulation.setEmulatedMedia", serde_json::json!({ "media": "print" })).await.expect("print");
        // A4 and letter at 96 dots an inch, 15 mm of margin on either side.
        for wide in [680, 703] {
            let screen = serde_json::json!({ "width": wide, "height": 1000, "deviceScaleFactor": 1, "mobile": false });
            browser.page.cdp().send_raw("Emulation.setDeviceMetricsOverride", screen).await.expect("a sheet");
            let over = browser.run("return document.documentElement.scrollWidth - document.documentElement.clientWidth").await;
            assert!(over.as_i64().is_some_and(|over| over <= 1), "{path} at {wide}: {over}");
        }
        let shown = "return [...document.querySelectorAll('.panel, header nav')].filter(e => getComputedStyle(e).display !== 'none').length";
        assert_eq!(browser.run(shown).await, 0, "{path}: what can only be clicked is not printed");
        assert!(browser.run("return document.querySelector('footer').innerText").await.to_string().contains("shut in first"));
        let printed = browser.page.cdp().send_raw("Page.printToPDF", serde_json::json!({ "printBackground": false })).await;
        let data = printed.expect("printed")["data"].as_str().map(str::len);
        assert!(data.is_some_and(|length| length > 5_000), "{path}: {data:?}");
        browser.page.cdp().send_raw("Emulation.setEmulatedMedia", serde_json::json!({ "media": "" })).await.expect("screen");
    }
    browser.close().await;
}

/// A picture answers to the pointer, and to a knob beside it.
#[tokio::test(flavor = "multi_thread")]
async fn a_picture_is_read_and_turned() {
    let browser = Browser::open().await;
    browser.go("/pictures?well=ostrick.toml&show=flow").await;
    browser.find("svg.figure").await;
    browser
        .run(
            "const box = document.querySelector('svg.figure').getBoundingClientRect(); \
             document.querySelector('svg.figure').dispatchEvent(new PointerEvent('pointermove', {clientX: box.x + box.width / 2, \
             clientY: box.y + box.height / 2}));",
        )
        .await;
    assert!(browser.text(".reading").await.contains("standpipe") || browser.text(".reading").await.contains("gpm"));
    let before = browser.run("return document.querySelector('path.demand').getAttribute('d')").await;
    browser.run("document.querySelectorAll('#turn details').forEach(d => d.open = true)").await;
    browser.find("a.nudge[data-for='if.section[2].mud.weight'][aria-label$='up']").await.click().await.expect("it turns");
    browser.find("body.what-if").await;
    let after = browser.run("return document.querySelector('path.demand').getAttribute('d')").await;
    assert_ne!(before, after, "heavier mud takes more pressure");
    browser.close().await;
}

/// Wide, middling and narrow, light and dark: nothing runs over the edge, and axe-core finds nothing serious.
#[tokio::test(flavor = "multi_thread")]
async fn every_page_fits_and_is_open_to_all() {
    let axe = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/axe/node_modules/axe-core/axe.min.js");
    let axe = std::fs::read_to_string(axe).expect("axe-core is fetched; `cargo xtask test` does it");
    let browser = Browser::open().await;
    let mut faults = Vec::new();
    for theme in ["paper", "night"] {
        browser.go("/settings").await;
        browser.find(&format!("input[value='{theme}']")).await.click().await.expect("chosen");
        browser.find("main form button").await.click().await.expect("kept");
        // The page that follows bears it: to go on before would take the form back.
        browser.find(&format!("html[data-theme='{theme}'] table.sheet")).await;
        for (name, path) in [
            ("sheet", "/sheet?well=tolvane.toml"),
            ("what-if", "/sheet?well=ostrick.toml&if.section[2].mud.weight=12+ppg"),
            ("answer", "/answer?well=ostrick.toml&question=hoisting/hook-load&section=2"),
            ("window", "/pictures?well=tolvane.toml"),
            ("well", "/pictures?well=ostrick.toml&show=well"),
            ("mast", "/pictures?well=ostrick.toml&show=mast"),
            ("flow", "/pictures?well=ostrick.toml&show=flow"),
            ("speeds", "/pictures?well=tolvane.toml&show=trip-speeds"),
            ("connection", "/pictures?well=ostrick.toml&show=power-connection"),
            ("kill", "/kill?well=ostrick.toml&section=2&sidpp=400+psi&sicp=620+psi&gain=20+bbl&pumped=300"),
            ("papers", "/papers?well=ostrick.toml"),
            ("paper", "/paper?well=ostrick.toml&paper=limits-card&section=2"),
            ("due", "/due?well=ostrick.toml"),
            ("inputs", "/inputs?well=ostrick.toml"),
            ("text", "/edit?well=ostrick.toml&subject=section[2].mud"),
            ("write", "/write?well=ostrick.toml&if.section[2].mud.weight=12+ppg"),
            ("formula", "/formulas/hydrostatic-pressure?density=10+ppg&vertical_depth=1000+ft"),
            ("manual", "/manual/circulating-column"),
            ("settings", "/settings"),
            ("faulty", "/sheet?well=ostrick.toml&if.section[2].mud.weight=heavy"),
        ] {
            browser.go(path).await;
            let worn = browser.run("return document.documentElement.dataset.theme").await;
            assert_eq!(worn, theme, "{name}");
            for wide in [1440, 1024, 375] {
                browser.look(&format!("{name}-{theme}"), wide).await;
                let over =
                    browser.run("return document.documentElement.scrollWidth - document.documentElement.clientWidth").await;
                if over.as_i64().is_none_or(|over| over > 1) {
                    faults.push(format!("{name} {theme} {wide}: runs over the edge by {over}"));
                }
            }
            browser.run(&axe).await;
            let found = browser
                .page
                .execute_async("const done = arguments[0]; axe.run().then(r => done(r.violations.filter(v => ['serious', 'critical'].includes(v.impact)).map(v => v.id + ': ' + v.nodes.slice(0, 3).map(n => n.html.slice(0, 120) + ' ' + n.failureSummary.slice(0, 200)).join(' | '))))", vec![])
                .await
                .expect("axe runs");
            for fault in found.json().as_array().expect("a list") {
                faults.push(format!("{name} {theme}: {fault}"));
            }
        }
    }
    browser.close().await;
    assert!(faults.is_empty(), "{faults:#?}");
}
