// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "access/pinpolicy.h"

#include <QCoreApplication>

#include <algorithm>

namespace ramplight {
namespace {

bool isRun(QByteArrayView pin, int step)
{
    // Counted through 9 to 0, so that 890123 is a run as well.
    for (qsizetype i = 1; i < pin.size(); ++i)
        if ((pin[i - 1] - '0' + step + 10) % 10 != pin[i] - '0')
            return false;
    return true;
}

bool repeatsEvery(QByteArrayView pin, qsizetype period)
{
    if (pin.size() % period != 0)
        return false;
    for (qsizetype i = period; i < pin.size(); ++i)
        if (pin[i] != pin[i - period])
            return false;
    return true;
}

} // namespace

tl::expected<void, AccessError> checkNewPin(const PinPolicy& policy, const Secret& pin)
{
    const QByteArrayView digits = pin.bytes();
    if (!std::all_of(digits.begin(), digits.end(), [](char c) { return c >= '0' && c <= '9'; }))
        return tl::unexpected(AccessError::PinNotDigits);
    if (digits.isEmpty() || digits.size() != policy.digits)
        return tl::unexpected(AccessError::PinWrongLength);
    if (repeatsEvery(digits, 1))
        return tl::unexpected(AccessError::PinAllSame);
    if (isRun(digits, 1) || isRun(digits, -1))
        return tl::unexpected(AccessError::PinStraightRun);
    for (qsizetype period = 2; period <= digits.size() / 2; ++period)
        if (repeatsEvery(digits, period))
            return tl::unexpected(AccessError::PinRepeats);
    return {};
}

QString words(const PinPolicy& policy)
{
    return QCoreApplication::translate(
               "ramplight",
               "%1 digits: not all the same, not counting up or down, no group repeated.")
        .arg(policy.digits);
}

} // namespace ramplight
