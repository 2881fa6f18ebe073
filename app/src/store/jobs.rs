//! One thing after the other, in the order asked.

use std::{
    cell::RefCell,
    collections::VecDeque,
    future::Future,
    pin::Pin,
    rc::Rc,
    task::{Context, Poll},
};

use leptos::task::{spawn_local, tick};

type Work = Pin<Box<dyn Future<Output = ()>>>;
type Job = Box<dyn FnOnce() -> Work>;

/// A queue of jobs. What a job asks for itself comes right after it, before what was asked meanwhile:
/// the key that keeps a figure asks for the keeping, and the next key must find that done.
#[derive(Clone, Default)]
pub struct Jobs(Rc<RefCell<Queue>>);

#[derive(Default)]
struct Queue {
    waiting: VecDeque<Job>,
    /// Whether jobs are being done.
    running: bool,
    /// Whether it is the job under way that asks, and for how many it has asked.
    asked_within: Option<usize>,
}

impl Jobs {
    /// Does a job after those that were asked before.
    pub fn after<F: Future<Output = ()> + 'static>(&self, job: impl FnOnce() -> F + 'static) {
        self.add(Box::new(|| Box::pin(job())));
    }

    /// Whether something asked for is still under way.
    pub fn busy(&self) -> bool {
        self.0.borrow().running
    }

    fn add(&self, job: Job) {
        let mut queue = self.0.borrow_mut();
        match queue.asked_within {
            Some(asked) => {
                queue.waiting.insert(asked, job);
                queue.asked_within = Some(asked + 1);
            }
            None => queue.waiting.push_back(job),
        }
        if !queue.running {
            queue.running = true;
            spawn_local(self.clone().run());
        }
    }

    async fn run(self) {
        while let Some(job) = self.next() {
            Within {
                jobs: self.clone(),
                asked: 0,
                work: job(),
            }
            .await;
            // The screen shows what came of it before the next begins.
            tick().await;
        }
    }

    fn next(&self) -> Option<Job> {
        let mut queue = self.0.borrow_mut();
        let job = queue.waiting.pop_front();
        queue.running = job.is_some();
        job
    }
}

/// A job under way: while it is at work, what is asked is asked by it.
struct Within {
    jobs: Jobs,
    asked: usize,
    work: Work,
}

impl Future for Within {
    type Output = ();

    fn poll(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<()> {
        let Self { jobs, asked, work } = self.get_mut();
        jobs.0.borrow_mut().asked_within = Some(*asked);
        let polled = work.as_mut().poll(context);
        *asked = jobs.0.borrow_mut().asked_within.take().unwrap_or_default();
        polled
    }
}
