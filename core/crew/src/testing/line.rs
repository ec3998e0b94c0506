//! A line between two phones in one thread. Messages of one direction keep their order; which
//! direction goes next is up to the test, and so is where the line breaks.

use std::collections::VecDeque;

use sward_book::ids::StreamId;
use sward_book::log::Stamp;
use sward_book::testing::TestEnv;

use super::Phone;
use crate::exchange::{Exchange, Outcome, Side};
use crate::{Log, Result};

/// What one end of the line works on.
pub struct Ends<'a> {
    /// The phone's stream.
    pub stream: StreamId,
    /// Its clock, which stands still.
    pub clock: Stamp,
    /// Its log.
    pub log: &'a mut dyn Log,
}

/// What went over a line.
#[derive(Debug, Default, Clone, PartialEq, Eq)]
pub struct Traffic {
    /// Messages delivered: from the one that opened, from the one that answered.
    pub messages: [usize; 2],
    /// Their bytes.
    pub bytes: [usize; 2],
    /// The most bytes that were under way at once in one direction.
    pub in_flight_bytes_most: usize,
}

/// A line on which an exchange runs.
pub struct Line<'a> {
    ends: [Ends<'a>; 2],
    exchanges: [Exchange; 2],
    /// To the one that answers, to the one that opened.
    under_way: [VecDeque<Vec<u8>>; 2],
    traffic: Traffic,
}

impl<'a> Line<'a> {
    /// The first phone calls the second.
    ///
    /// # Errors
    /// As [`Exchange::new`].
    pub fn open(opens: Ends<'a>, answers: Ends<'a>) -> Result<Self> {
        let env = TestEnv::new(7);
        let (a, b) = (opens.stream, answers.stream);
        let mut first = Exchange::new(Side::Opens, a, b, opens.log, env.as_ref())?;
        let second = Exchange::new(Side::Answers, b, a, answers.log, env.as_ref())?;
        let greeting = first.begin(opens.clock, opens.log)?;
        Ok(Self {
            ends: [opens, answers],
            exchanges: [first, second],
            under_way: [greeting.into(), VecDeque::new()],
            traffic: Traffic::default(),
        })
    }

    /// One phone calls another.
    ///
    /// # Errors
    /// As [`Exchange::new`].
    pub fn between(opens: &'a mut Phone, answers: &'a mut Phone) -> Result<Self> {
        let ends = |phone: &'a mut Phone| Ends {
            stream: phone.stream(),
            clock: phone.stamp(),
            log: &mut phone.log,
        };
        Self::open(ends(opens), ends(answers))
    }

    /// Delivers at most `messages`; `pick` says which direction goes first where both have some.
    ///
    /// # Errors
    /// What an end says.
    pub fn run(&mut self, messages: usize, mut pick: impl FnMut() -> bool) -> Result<()> {
        for _ in 0..messages {
            let way = match (self.under_way[0].is_empty(), self.under_way[1].is_empty()) {
                (true, true) => break,
                (false, true) => 0,
                (true, false) => 1,
                (false, false) => usize::from(pick()),
            };
            self.deliver(way)?;
        }
        Ok(())
    }

    /// Delivers until nothing is under way.
    ///
    /// # Errors
    /// What an end says.
    pub fn run_out(&mut self) -> Result<()> {
        self.run(usize::MAX, || false)
    }

    fn deliver(&mut self, way: usize) -> Result<()> {
        let Some(message) = self.under_way[way].pop_front() else {
            return Ok(());
        };
        self.traffic.messages[way] += 1;
        self.traffic.bytes[way] += message.len();
        let to = 1 - way;
        let end = &mut self.ends[to];
        let answers = self.exchanges[to].on_message(&message, end.clock, end.log)?;
        self.under_way[to].extend(answers);
        let bytes = self.under_way[to].iter().map(Vec::len).sum();
        self.traffic.in_flight_bytes_most = self.traffic.in_flight_bytes_most.max(bytes);
        Ok(())
    }

    /// Whether both ends are done.
    pub fn is_done(&self) -> bool {
        self.exchanges.iter().all(Exchange::is_done)
    }

    /// What it has brought to the one that opened, and to the one that answered.
    pub fn outcomes(&self) -> [&Outcome; 2] {
        [self.exchanges[0].outcome(), self.exchanges[1].outcome()]
    }

    /// What went over it.
    pub fn traffic(&self) -> &Traffic {
        &self.traffic
    }
}
