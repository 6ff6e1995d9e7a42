// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "planning/whatif.h"
#include "planning/indexing.h"

#include <algorithm>

namespace ramplight::planning::whatif {

namespace {

/// Joins every group that the other one belongs to.
void joinGroups(std::vector<std::vector<int>>& groups, int like, int another)
{
    for (std::vector<int>& group : groups) {
        if (std::find(group.begin(), group.end(), like) != group.end())
            group.push_back(another);
    }
}

void apply(Shop& shop, const AnotherPerson& change)
{
    shop.people.push_back({change.name, shop.people[at(change.like)].times});
    joinGroups(shop.crews, change.like, static_cast<int>(shop.people.size()) - 1);
}

void apply(Shop& shop, const AnotherBay& change)
{
    shop.bays.push_back({change.name});
    joinGroups(shop.bayGroups, change.like, static_cast<int>(shop.bays.size()) - 1);
}

void apply(Shop& shop, const Overtime& change)
{
    for (std::size_t p = 0; p < shop.people.size(); ++p) {
        if (change.person >= 0 && static_cast<std::size_t>(change.person) != p)
            continue;
        std::vector<Span> spans = shop.people[p].times.spans();
        spans.insert(spans.end(), change.spans.begin(), change.spans.end());
        shop.people[p].times = WorkTimes(std::move(spans));
    }
}

void apply(Shop& shop, const Absence& change)
{
    WorkTimes& times = shop.people[at(change.person)].times;
    std::vector<Span> spans;
    for (const Span& span : times.spans()) {
        spans.push_back({span.from, std::min(span.to, change.span.from)});
        spans.push_back({std::max(span.from, change.span.to), span.to});
    }
    times = WorkTimes(std::move(spans));
}

void apply(Shop& shop, const PartAt& change)
{
    shop.jobs[at(change.job)].notBefore = change.at;
}

void apply(Shop& shop, const Promise& change)
{
    shop.cars[at(change.car)].promised = change.promised;
    shop.cars[at(change.car)].weight = change.weight;
}

void apply(Shop& shop, const Assign& change)
{
    ShopJob& job = shop.jobs[at(change.job)];
    if (change.person >= 0) {
        job.crew = static_cast<int>(shop.crews.size());
        shop.crews.push_back({change.person});
    }
    if (change.bay >= 0) {
        job.bays = static_cast<int>(shop.bayGroups.size());
        shop.bayGroups.push_back({change.bay});
    }
}

} // namespace

Shop changed(Shop shop, const Change& change)
{
    std::visit([&shop](const auto& one) { apply(shop, one); }, change);
    return shop;
}

std::vector<Difference> differences(const ShopPlan& before, const ShopPlan& after)
{
    std::vector<Difference> all;
    for (std::size_t c = 0; c < before.ready.size(); ++c) {
        if (before.ready[c] != after.ready[c])
            all.push_back({static_cast<int>(c), before.ready[c], after.ready[c]});
    }
    std::stable_sort(all.begin(), all.end(), [](const Difference& a, const Difference& b) {
        return a.before - a.after > b.before - b.after;
    });
    return all;
}

} // namespace ramplight::planning::whatif
