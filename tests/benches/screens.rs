//! Every screen on a book of one season for a crew of ten (16,000 visits, 160,000 entries), served
//! by a process of its own, beside a bare axum "hello" in the same run.
//!
//! Goals: at most 10 ms at the median and 25 ms at the 99th percentile, a page of at most 60 KB
//! without drawings, less than 100 MB of memory. `SWARD_BENCH_VISITS` sets another number of visits.

#![allow(clippy::print_stdout, reason = "a bench is read on the terminal")]

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{SocketAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::time::Instant;

use sward_book::Book;
use sward_book::env::{Env, TimeProof};
use sward_book::testing::TestEnv;
use sward_screens::{Setting, serve};
use sward_tests::measure::{ratio, season};

const PHONES: usize = 10;
const REQUESTS: usize = 300;

fn main() {
    let mut args = std::env::args().skip(1);
    match (args.next().as_deref(), args.next(), args.next()) {
        (Some("--serve"), Some(folder), Some(now)) => served(Path::new(&folder), &now),
        _ => measured(),
    }
}

/// The process that is measured: nothing in it but the screens.
fn served(folder: &Path, now: &str) {
    let env = TestEnv::new(77);
    env.set_wall_clock(now.parse().expect("a time in milliseconds"));
    env.set_vouched(Some(TimeProof::Network));
    let served = serve(Setting {
        folder: folder.to_owned(),
        env: env as Arc<dyn Env>,
        zone: chrono_tz::America::New_York,
        port: 0,
    })
    .expect("a free port");
    println!("{}", served.entrance());
    // Until the bench closes its end.
    let _ = std::io::stdin().read_to_end(&mut Vec::new());
}

fn measured() {
    let visits: usize = std::env::var("SWARD_BENCH_VISITS")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(16_000);
    let begun = Instant::now();
    let mut crew = season(PHONES, visits / PHONES).expect("a season can be written");
    crew.swap_all().expect("the crew can swap");
    let lead = crew.phones.swap_remove(0);
    let now_ms = lead.now_ms();
    let paths = paths(&lead.book);
    println!(
        "a season of {visits} visits, {} entries, written in {} s",
        lead.book.entry_count().expect("a count"),
        begun.elapsed().as_secs()
    );
    let folder = lead.folder().to_owned();
    drop(lead.book);

    let mut child = Served::start(&folder, now_ms);
    let hello = hello();
    let peer = times(hello, "/", "");
    println!(
        "  {:<34} median {:>6} µs  99th {:>6} µs",
        "bare axum hello", peer.median_us, peer.late_us
    );
    let assets: usize = ["/app.css", "/app.js"]
        .iter()
        .map(|path| get(child.address, path, &child.cookie).len())
        .sum();
    for path in paths {
        let answer = get(child.address, &path, &child.cookie);
        assert!(
            answer.starts_with("HTTP/1.1 200"),
            "{path}: {}",
            answer.lines().next().unwrap_or_default()
        );
        let taken = times(child.address, &path, &child.cookie);
        println!(
            "  {:<34} median {:>6} µs  99th {:>6} µs  {:>6} × hello  {:>5} KB with style and script",
            pattern(&path),
            taken.median_us,
            taken.late_us,
            ratio(taken.median_us, peer.median_us),
            (without_drawings(&answer) + assets) / 1024
        );
    }
    println!(
        "  memory at its most {} MB (goal: under 100)",
        child.memory_most_kb() / 1024
    );
    child.stop();
}

/// One address of each kind of screen.
fn paths(book: &Book) -> Vec<String> {
    let open = book.visits_newest(1, None).expect("visits");
    let visit = open.first().expect("a visit").visit;
    let yard = book.yards().expect("yards").first().expect("a yard").yard;
    let label = book
        .labels()
        .expect("label sheets")
        .first()
        .expect("a label sheet")
        .sheet;
    let mut paths: Vec<String> = [
        "/",
        "/yards",
        "/yards/new",
        "/records",
        "/crew",
        "/crew/swap",
        "/crew/settle",
        "/crew/time",
        "/help",
        "/help/lines",
        "/things",
        "/things/labels",
        "/things/equipment",
        "/things/stock",
        "/things/people",
        "/things/settings",
    ]
    .map(str::to_owned)
    .to_vec();
    for step in [
        "",
        "/look",
        "/measure",
        "/plan",
        "/ready",
        "/ready/walk",
        "/treat",
        "/keep-off",
        "/recheck",
    ] {
        paths.push(format!("/visit/{visit}{step}"));
    }
    paths.push(format!("/yards/{yard}"));
    paths.push(format!("/yards/{yard}/sketch"));
    paths.push(format!("/things/labels/{label}"));
    paths.push(format!("/records/{visit}"));
    paths
}

/// An address without its ids, to read.
fn pattern(path: &str) -> String {
    path.split('/')
        .map(|part| if part.len() > 30 { "…" } else { part })
        .collect::<Vec<_>>()
        .join("/")
}

/// The bytes of a page but for its SVG drawings.
fn without_drawings(answer: &str) -> usize {
    let mut bytes = answer.len();
    let mut rest = answer;
    while let Some(start) = rest.find("<svg class=\"sketch") {
        let Some(length) = rest[start..].find("</svg>") else {
            break;
        };
        bytes -= length;
        rest = &rest[start + length..];
    }
    bytes
}

struct Taken {
    median_us: u64,
    late_us: u64,
}

fn times(address: SocketAddr, path: &str, cookie: &str) -> Taken {
    let mut all: Vec<u64> = (0..REQUESTS)
        .map(|_| {
            let start = Instant::now();
            let answer = get(address, path, cookie);
            assert!(answer.starts_with("HTTP/1.1 200"));
            u64::try_from(start.elapsed().as_micros()).unwrap_or(u64::MAX)
        })
        .collect();
    all.sort_unstable();
    Taken {
        median_us: all[REQUESTS / 2],
        late_us: all[REQUESTS * 99 / 100],
    }
}

fn get(address: SocketAddr, path: &str, cookie: &str) -> String {
    let mut stream = TcpStream::connect(address).expect("the server listens");
    write!(
        stream,
        "GET {path} HTTP/1.1\r\nHost: {address}\r\nCookie: {cookie}\r\nConnection: close\r\n\r\n"
    )
    .expect("it takes a request");
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).expect("it answers");
    String::from_utf8_lossy(&answer).into_owned()
}

/// A bare axum on a thread of its own, for as long as the bench runs.
fn hello() -> SocketAddr {
    let listener = std::net::TcpListener::bind("127.0.0.1:0").expect("a free port");
    let address = listener.local_addr().expect("its address");
    listener.set_nonblocking(true).expect("a setting");
    std::thread::spawn(move || {
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(2)
            .enable_all()
            .build()
            .expect("threads");
        runtime.block_on(async move {
            let listener = tokio::net::TcpListener::from_std(listener).expect("a listener");
            let router = axum::Router::new().route("/", axum::routing::get(|| async { "hello" }));
            axum::serve(listener, router).await.expect("it serves");
        });
    });
    address
}

struct Served {
    child: Child,
    address: SocketAddr,
    cookie: String,
}

impl Served {
    fn start(folder: &Path, now_ms: i64) -> Self {
        let program: PathBuf = std::env::current_exe().expect("this program");
        let mut child = Command::new(program)
            .arg("--serve")
            .arg(folder)
            .arg(now_ms.to_string())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("a second process");
        let mut line = String::new();
        BufReader::new(child.stdout.take().expect("its output"))
            .read_line(&mut line)
            .expect("its address");
        let entrance = line.trim().strip_prefix("http://").expect("an address");
        let (host, path) = entrance.split_once('/').expect("a path");
        let address = host.parse().expect("an address");
        let answer = get(address, &format!("/{path}"), "");
        let cookie = answer
            .lines()
            .find_map(|line| line.strip_prefix("set-cookie: "))
            .and_then(|value| value.split(';').next())
            .expect("the door lets in")
            .to_owned();
        Self {
            child,
            address,
            cookie,
        }
    }

    fn memory_most_kb(&mut self) -> u64 {
        let status = std::fs::read_to_string(format!("/proc/{}/status", self.child.id()))
            .unwrap_or_default();
        status
            .lines()
            .find_map(|line| line.strip_prefix("VmHWM:"))
            .and_then(|rest| rest.split_whitespace().next()?.parse().ok())
            .unwrap_or(0)
    }

    fn stop(mut self) {
        drop(self.child.stdin.take());
        let _ = self.child.wait();
    }
}
