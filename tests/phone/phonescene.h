// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "phone/phonewire.h"

#include "evidence/photodecoder.h"
#include "evidence/samples.h"
#include "phone/phonepage.h"
#include "phone/phoneserver.h"

#include <QObject>
#include <QTest>

#include <atomic>
#include <vector>

namespace ramplight::test {

/// Says that the page's script asks: the answer is words instead of a page.
inline const QByteArray byScript = "X-Ramplight: one\r\n";

/// A server on loopback whose photos come to the test's own thread, as they come to the kiosk's.
struct Scene
{
    explicit Scene(const PhoneLimits& limits = {})
        : server(
              [this](InvitationId id, const QByteArray& photo, const PhoneServer::Reply& reply) {
                  QMetaObject::invokeMethod(
                      &here, [this, id, photo, reply] { take(id, photo, reply); },
                      Qt::QueuedConnection);
              },
              limits, [this] { return nowMs.load(); })
    {
        const auto listening = server.listen(QStringLiteral("127.0.0.1"), 0);
        if (!listening)
            QTest::qFail(qPrintable(listening.error()), __FILE__, __LINE__);
    }

    void take(InvitationId id, const QByteArray& photo, const PhoneServer::Reply& reply)
    {
        ids.push_back(id);
        photos.append(photo);
        if (hold) {
            held.push_back(reply);
            return;
        }
        const auto image = decodePhoto(photo);
        reply(image ? PhotoAnswer(QString()) : PhotoAnswer(tl::unexpected(words(image.error()))));
    }

    PhoneInvitation invite()
    {
        return server.invite({QStringLiteral("after: the face"),
                              QStringLiteral("Refurbish <the> wheel"),
                              QStringLiteral("K-7 & more")});
    }
    [[nodiscard]] WireAnswer ask(const QByteArray& bytes) const
    {
        return ramplight::test::ask(server.port(), bytes);
    }
    [[nodiscard]] bool serves() { return ask(get(invite().path)).status == 200; }

    QObject here;
    std::atomic<qint64> nowMs = 1'000;
    bool hold = false;
    std::vector<PhoneServer::Reply> held;
    std::vector<InvitationId> ids;
    QByteArrayList photos;
    PhoneServer server;
};

inline QByteArray photo(int seed = 1)
{
    return samples::jpeg(samples::panel({320, 240}, seed));
}

} // namespace ramplight::test
