// The kernel allocates nothing: counted by replacing the global operator new of this
// program.
// Left out under sanitizers, which bring allocators of their own.
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__) && \
    !defined(FLATTAIL_SANITIZED)

#include <cstdlib>
#include <new>

#include "support/catch.h"
#include "support/model_builder.h"
#include "support/prepared_ride.h"

// The compiler inlines one of the pair and then sees malloc's block given to delete.
#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic ignored "-Wmismatched-new-delete"
#endif

namespace {
std::size_t allocations = 0;
}

void* operator new(std::size_t size) {
    ++allocations;
    if (void* memory = std::malloc(size)) return memory;
    throw std::bad_alloc();
}
void* operator new(std::size_t size, std::align_val_t align) {
    ++allocations;
    const auto step = static_cast<std::size_t>(align);
    if (void* memory = std::aligned_alloc(step, (size + step - 1) / step * step))
        return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }
void operator delete(void* memory, std::align_val_t) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t, std::align_val_t) noexcept {
    std::free(memory);
}

TEST_CASE("a ride without flats allocates nothing") {
    using namespace flattail;
    const scenario::Model model = support::make_plain_model(10000.0);
    const support::PreparedRide prepared = support::prepare_ride(model);
    ride::BlockRider rider(prepared.plan());
    sampling::DayBlock days = prepared.days->make_block();
    prepared.days->fill(0, days);
    days.points.clear();
    support::Results results;
    const std::size_t before = allocations;
    rider.ride(days, 0, ride::Solver::kFast, results);
    CHECK(allocations == before);
    std::vector<int> twin(1000);
    CHECK(allocations > before);
}

#endif
