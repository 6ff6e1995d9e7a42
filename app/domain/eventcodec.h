// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carevents.h"
#include "domain/siteevents.h"

#include <QByteArray>
#include <QJsonObject>
#include <QString>

#include <span>
#include <tl/expected.hpp>

// Events <-> what a ledger row holds. A ledger is never written anew: what an older version of the
// program meant by a body is told by an upcaster, each time the entry is read.
namespace ramplight {

struct EncodedEvent
{
    QString type;
    int version = 1;
    QByteArray body; ///< canonical JSON, as jsontext.h writes it
    friend bool operator==(const EncodedEvent&, const EncodedEvent&) = default;
};

/// Why a row could not be read.
struct EventFault
{
    QString words;
    bool isNewer = false; ///< only a newer program knows that type, or that version of it
};

/// Makes the body of a version the next one's. It never goes again, as the ledgers do not.
struct Upcaster
{
    QLatin1StringView type;
    int from = 1; ///< the version whose bodies it takes
    void (*raise)(QJsonObject& body) = nullptr;
};
using Upcasters = std::span<const Upcaster>;

/// Those of this program. An event's version is one more than the last that has an upcaster: 1 for
/// all of them as yet, since fields that came later have a default.
[[nodiscard]] Upcasters upcasters();

/// A JSON object out of its text, e.g. an event's body; the fault says where it ends being one.
[[nodiscard]] tl::expected<QJsonObject, EventFault> bodyOf(const QByteArray& text);
[[nodiscard]] EncodedEvent encode(const CarEvent& event, Upcasters known = upcasters());
[[nodiscard]] EncodedEvent encode(const SiteEvent& event, Upcasters known = upcasters());
[[nodiscard]] tl::expected<CarEvent, EventFault> decodeCarEvent(const EncodedEvent& encoded,
                                                                Upcasters known = upcasters());
[[nodiscard]] tl::expected<SiteEvent, EventFault> decodeSiteEvent(const EncodedEvent& encoded,
                                                                  Upcasters known = upcasters());

} // namespace ramplight
