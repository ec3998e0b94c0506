//! The exchange: two phones come to hold the same entries, over any connection.
//!
//! A state machine without I/O: messages in, messages out. Both directions run at once, each led
//! by the phone that takes. Progress is nothing but the log itself, so that after a break at any
//! message a new exchange goes on where the last one stopped.
//!
//! # Course
//!
//! 1. Each greets with a [crew tag](crate::locked) and a digest of its heads. Equal digests: both
//!    are done, after one round trip of some 150 bytes each way.
//! 2. Each tells its heads, to a member only. A phone that does not know the other as a member
//!    first takes what it gets, for the other's admission may be in it, and then tells its heads
//!    or that it gives none. When neither knows the other, who opened speaks first.
//! 3. For each head it lacks, a phone sends a want with a locator: hashes of what it has of that
//!    stream at doubling distances. The other answers with the entries from the nearest of these
//!    on, at most [`CHUNK_BYTES_MAX`](crate::CHUNK_BYTES_MAX) at once, and sends the next chunk
//!    when the last one is said to be on disk. So each phone holds at most one chunk each way.
//!
//! The connection has to have proven who is at the other end, and to keep others from listening;
//! the exchange does neither.

mod clock;
mod give;
mod message;
mod pull;

pub use clock::PeerClock;
pub use message::MESSAGE_BYTES_MAX;

use sward_book::ids::{Hash, StreamId};
use sward_book::log::{Head, Stamp, digest_of_heads};
use sward_book::{BookError, Env};

use crate::crew_tag::{TAG_BYTES, crew_tag};
use crate::{CrewError, Log, PeerFault, Result, Standing};
use clock::Bracket;
use give::Give;
use message::{Hello, Message};
use pull::Pull;

/// Who began the connection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// This phone called the other, and greets first.
    Opens,
    /// This phone was called.
    Answers,
}

/// What an exchange has brought so far.
#[derive(Debug, Default)]
pub struct Outcome {
    /// Entries taken in that were not here before.
    pub new_entries: u64,
    /// Entries taken in that were here already.
    pub known_entries: u64,
    /// Entries that the other phone has said to be on its disk.
    pub given_entries: u64,
    /// Branches that the other phone has whole.
    pub peer_holds: Vec<Head>,
    /// Streams that were refused from some entry on, and why.
    pub refused: Vec<(StreamId, BookError)>,
    /// What the other phone was to the crew when it was last looked at.
    pub peer_standing: Option<Standing>,
    /// The other phone's clock beside the own one.
    pub peer_clock: Option<PeerClock>,
}

/// One exchange with one phone.
pub struct Exchange {
    side: Side,
    crew: Hash,
    me: StreamId,
    peer: StreamId,
    nonce: [u8; TAG_BYTES],
    /// What the own greeting said about the log and about the peer: both phones go by it, even
    /// if the log has grown meanwhile.
    digest: Option<Hash>,
    gives: bool,
    peer_greeted: bool,
    bracket: Bracket,
    pull: Pull,
    give: Give,
    outcome: Outcome,
    failed: bool,
}

impl Exchange {
    /// An exchange with `peer`, whose identity the connection has proven. `me` is the own stream.
    ///
    /// # Errors
    /// [`CrewError::NoCrew`], or when the log cannot be read.
    pub fn new(
        side: Side,
        me: StreamId,
        peer: StreamId,
        log: &dyn Log,
        env: &dyn Env,
    ) -> Result<Self> {
        let crew = log.crew()?.ok_or(CrewError::NoCrew)?;
        let mut nonce = [0; TAG_BYTES];
        env.random(&mut nonce);
        Ok(Self {
            side,
            crew,
            me,
            peer,
            nonce,
            digest: None,
            gives: false,
            peer_greeted: false,
            bracket: Bracket::default(),
            pull: Pull::default(),
            give: Give::default(),
            outcome: Outcome::default(),
            failed: false,
        })
    }

    /// What to send before anything has come: the greeting of the phone that opens, nothing for
    /// the one that answers. To be called once, first.
    ///
    /// # Errors
    /// When the log cannot be read.
    pub fn begin(&mut self, now: Stamp, log: &dyn Log) -> Result<Vec<Vec<u8>>> {
        if self.failed || self.digest.is_some() || self.side == Side::Answers {
            return Ok(Vec::new());
        }
        Ok(vec![self.hello(now, log)?.encode()])
    }

    /// Takes one message from the other phone and says what to send. `now` is the own clock at
    /// this moment. After an error the exchange has ended: close the connection.
    ///
    /// # Errors
    /// [`CrewError::PeerOfAnotherCrew`], [`CrewError::Peer`], a newer version as
    /// [`BookError::Newer`], what the log says when it cannot store, and [`CrewError::Ended`]
    /// ever after.
    pub fn on_message(
        &mut self,
        message: &[u8],
        now: Stamp,
        log: &mut dyn Log,
    ) -> Result<Vec<Vec<u8>>> {
        if self.failed || self.is_done() {
            return Err(CrewError::Ended);
        }
        let answers = Message::decode(message).and_then(|m| self.answer(m, now, log));
        self.failed = answers.is_err();
        Ok(answers?.iter().map(Message::encode).collect())
    }

    /// Whether both phones have all they wanted of each other.
    pub fn is_done(&self) -> bool {
        self.pull.is_done() && self.give.is_done()
    }

    /// What it has brought so far; also after a break.
    pub fn outcome(&self) -> &Outcome {
        &self.outcome
    }

    fn answer(&mut self, message: Message, now: Stamp, log: &mut dyn Log) -> Result<Vec<Message>> {
        if !self.peer_greeted && !matches!(message, Message::Hello(_)) {
            return Err(CrewError::Peer(PeerFault::NoGreeting));
        }
        let mut out = Vec::new();
        match message {
            Message::Hello(hello) => return self.on_hello(&hello, now, log),
            Message::Heads { clock, heads, more } => {
                self.outcome.peer_clock = self.bracket.observe(clock, now);
                self.pull.on_heads(heads, more, log, &mut out)?;
            }
            Message::Entries(wires) => {
                let wires: Vec<Vec<u8>> = wires.into_iter().map(Into::into).collect();
                self.pull
                    .on_entries(&wires, self.peer, log, &mut self.outcome, &mut out)?;
            }
            Message::MoreHeads => out.push(self.give.on_more_heads(now, log)?),
            Message::Want { tip, locator } => {
                let standing = self.look_up_peer(log)?;
                out.push(self.give.on_want(tip, &locator, standing, log)?);
            }
            Message::Stored(seq) => {
                out.extend(self.give.on_stored(seq, log, &mut self.outcome)?);
            }
            Message::Done => self.give.on_done()?,
        }
        if self.pull.is_done() && self.give.has_not_told() {
            // What was taken may have been the other phone's admission.
            out.push(self.tell_heads(now, log)?);
        }
        Ok(out)
    }

    fn on_hello(&mut self, hello: &Hello, now: Stamp, log: &dyn Log) -> Result<Vec<Message>> {
        if self.peer_greeted || (self.side == Side::Opens && self.digest.is_none()) {
            return Err(CrewError::Peer(PeerFault::SecondGreeting));
        }
        if *hello.tag != crew_tag(self.crew, &hello.nonce) {
            return Err(CrewError::PeerOfAnotherCrew);
        }
        if hello.stream != self.peer {
            return Err(CrewError::Peer(PeerFault::AnothersName));
        }
        self.peer_greeted = true;
        self.outcome.peer_clock = self.bracket.observe(hello.clock, now);
        let mut out = Vec::new();
        if self.side == Side::Answers {
            out.push(self.hello(now, log)?);
        }
        if self.digest == Some(hello.digest) {
            let heads = log.heads()?;
            if digest_of_heads(&heads) == hello.digest {
                self.outcome.peer_holds = heads;
            }
            self.pull.end();
            self.give.end();
            return Ok(out);
        }
        if self.gives || (!hello.gives && self.side == Side::Opens) {
            out.push(self.tell_heads(now, log)?);
        }
        Ok(out)
    }

    fn hello(&mut self, now: Stamp, log: &dyn Log) -> Result<Message> {
        let digest = digest_of_heads(&log.heads()?);
        self.digest = Some(digest);
        let standing = self.look_up_peer(log)?;
        self.gives = standing.is_member();
        self.bracket.greet(now);
        Ok(Message::Hello(Hello {
            nonce: self.nonce.into(),
            tag: crew_tag(self.crew, &self.nonce).into(),
            stream: self.me,
            digest,
            clock: now,
            gives: self.gives,
        }))
    }

    fn tell_heads(&mut self, now: Stamp, log: &dyn Log) -> Result<Message> {
        let standing = self.look_up_peer(log)?;
        self.give.tell_heads(standing, now, log)
    }

    fn look_up_peer(&mut self, log: &dyn Log) -> Result<Standing> {
        let standing = log.standing(self.peer)?;
        self.outcome.peer_standing = Some(standing);
        Ok(standing)
    }
}
