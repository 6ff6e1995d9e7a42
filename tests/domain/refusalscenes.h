// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "workbench.h"

#include <functional>

// For every refusal a scene at the wall that ends in it.
namespace ramplight::test {

/// Sets a car up and asks what cannot be. Answers what ask() said.
struct RefusalScene
{
    RefusalId id;
    std::function<QString(Workbench&)> play;
};

/// The house: people, rights, bays, rules.
[[nodiscard]] std::vector<RefusalScene> siteScenes();
/// The car: arrival, findings, corrections, release, leaving.
[[nodiscard]] std::vector<RefusalScene> carScenes();
/// Work: who may, when, and what stands in its way.
[[nodiscard]] std::vector<RefusalScene> workScenes();
/// Proof of work: readings, figures, signatures, checks.
[[nodiscard]] std::vector<RefusalScene> proofScenes();

/// Opens an operation of this kind on the car and starts it.
OperationId started(Workbench& bench, const CarId& id, const char* kind, PersonId who);
/// A firm that takes work, as SendOut says it.
[[nodiscard]] OutsideWork cove();

} // namespace ramplight::test
