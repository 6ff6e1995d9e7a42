// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>

#include <array>
#include <functional>
#include <map>
#include <mutex>
#include <optional>

namespace ramplight {

/// What the page on the phone tells who opened it. Words as they are shown.
struct PhoneErrand
{
    QString what; ///< "after: face and lip, same light"
    QString work; ///< "Refurbish the wheel, near side front"
    QString car;  ///< "K-7, RL 1234, Aurel Kestin"
};

/// Which invitation; never used twice while the program runs.
struct InvitationId
{
    int value = 0;
    friend auto operator<=>(const InvitationId&, const InvitationId&) = default;
};

/// An invitation as it was opened.
struct PhoneInvitation
{
    InvitationId id;
    QString path;      ///< "/" and the token: 32 hexadecimal digits
    qint64 endsMs = 0; ///< on the clock that the book was given
    PhoneErrand errand;
};

/// The invitations that are open: each has a token of 128 bits, holds for a while, and takes so
/// many photos. Any thread.
class Invitations
{
public:
    /// Milliseconds of a clock that never goes back; called on several threads.
    using NowMs = std::function<qint64()>;

    Invitations(NowMs now, qint64 lifeMs, int mostPhotos);

    [[nodiscard]] PhoneInvitation open(const PhoneErrand& errand);
    void end(InvitationId id);
    void endAll();
    /// The open invitation with exactly this path. Takes as long for a path that is nearly right as
    /// for any other.
    [[nodiscard]] std::optional<PhoneInvitation> find(const char* path) const;
    /// Counts a photo; false when the invitation is over or has had all of its photos.
    [[nodiscard]] bool takesOneMore(InvitationId id);

private:
    static constexpr std::size_t tokenBytes = 16;
    using Token = std::array<unsigned char, tokenBytes>;
    struct Open
    {
        PhoneInvitation invitation;
        Token token = {};
        int photos = 0;
    };

    void forgetOld();

    NowMs m_now;
    qint64 m_lifeMs;
    int m_mostPhotos;
    mutable std::mutex m_gate; ///< over all that follows
    std::map<InvitationId, Open> m_open;
    int m_last = 0;
};

} // namespace ramplight
