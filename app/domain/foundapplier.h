// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"

namespace ramplight {

/// What entries about a car itself do to it: arrival, facts, findings, what was measured and read
/// off it. Part of apply(); carries one envelope's time and person. Internal to the domain.
class FoundApplier
{
public:
    FoundApplier(CarState& car, const CarEnvelope& envelope)
        : m_car(car)
        , m_envelope(envelope)
    {
    }

    void operator()(const CarArrived& e);
    void operator()(const IdentityCorrected& e);
    void operator()(const FactsCorrected& e);
    void operator()(const PromiseChanged& e);
    void operator()(const FindingRecorded& e);
    void operator()(const FindingCorrected& e);
    void operator()(const FindingAnswered& e);
    void operator()(const PlacesFoundSound& e);
    void operator()(const TreadRecorded& e);
    void operator()(const TyreRecorded& e);
    void operator()(const PaintDepthRecorded& e);
    void operator()(const OdometerRead& e);
    void operator()(const AppraisalFinished& e);
    void operator()(const WalkRoundRead& e);
    void operator()(const DraftDecided& e);
    void operator()(const PhotoAttached& e);

protected:
    [[nodiscard]] Moment at() const { return m_envelope.at; }
    [[nodiscard]] PersonId by() const { return m_envelope.by; }
    void seeUnlessSeen(const PlaceId& place, bool byWork = false);

    CarState& m_car;
    const CarEnvelope& m_envelope;

private:
    /// Whoever said it: where it came over from a second entry, it was not who joined the two.
    [[nodiscard]] Measured said(const CarriedOver& carried) const;
    void forgetUnlessSeen(const PlaceId& place);
};

} // namespace ramplight
