/* A crowd of threads that draw numbers from one counter. */
#define _POSIX_C_SOURCE 200809L
#include "run/workers.h"

#include <pthread.h>

enum { WORKERS_MOST = 64 };

struct crowd {
    pthread_mutex_t lock;
    size_t next, count;
    void (*work)(void *, size_t);
    void *context;
};

static void *draw_and_work(void *argument)
{
    struct crowd *c = argument;
    for (;;) {
        pthread_mutex_lock(&c->lock);
        size_t i = c->next < c->count ? c->next++ : c->count;
        pthread_mutex_unlock(&c->lock);
        if (i == c->count)
            return NULL;
        c->work(c->context, i);
    }
}

void workers_run(size_t count, int at_a_time, void (*work)(void *, size_t), void *context)
{
    struct crowd c = {.count = count, .work = work, .context = context};
    pthread_t threads[WORKERS_MOST];
    int started = 0;
    pthread_mutex_init(&c.lock, NULL);
    for (int wanted = at_a_time - 1; started < wanted && started < WORKERS_MOST && (size_t)started + 1 < count; started++)
        if (pthread_create(&threads[started], NULL, draw_and_work, &c) != 0)
            break;
    draw_and_work(&c); /* this thread works too, so no thread to be had still does it all */
    for (int i = 0; i < started; i++)
        pthread_join(threads[i], NULL);
    pthread_mutex_destroy(&c.lock);
}
