// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/ask.h"

#include <QUuid>

#include <utility>

namespace ramplight {

Ask::Ask(QObject* parent)
    : QObject(parent)
{
}

bool Ask::begin(const QString& what, std::function<void()> again)
{
    if (m_busy) {
        if (what != m_what)
            m_next = std::move(again);
        return false;
    }
    m_busy = true;
    m_canRetry = false;
    m_what = what;
    m_refusalId.clear();
    m_words.clear();
    m_details.clear();
    m_again = std::move(again);
    emit changed();
    return true;
}

void Ask::succeed()
{
    m_busy = false;
    m_again = {};
    const std::function<void()> next = std::exchange(m_next, {});
    emit changed();
    emit done(m_what);
    if (next)
        next();
}

void Ask::fail(const QString& id, const QString& words, bool canRetry)
{
    m_busy = false;
    m_next = {};
    m_canRetry = canRetry;
    m_refusalId = id;
    m_words = words;
    emit changed();
    emit refusedWith(id, words);
}

void Ask::failWith(const Failure& failure)
{
    if (const auto* refusal = std::get_if<Refusal>(&failure)) {
        m_details = refusal->details;
        fail(idText(refusal->id), ramplight::words(*refusal), false);
    } else {
        fail(QStringLiteral("store"), ramplight::words(failure), true);
    }
}

void Ask::refuse(const QString& what, const QString& id, const QString& words)
{
    if (begin(what, {}))
        fail(id, words, false);
}

void Ask::retry()
{
    if (m_canRetry && m_again) {
        const std::function<void()> again = m_again;
        again();
    }
}

void Ask::dismiss()
{
    if (m_busy)
        return;
    m_words.clear();
    m_refusalId.clear();
    m_details.clear();
    m_canRetry = false;
    m_again = {};
    emit changed();
}

CommandId newCommandId()
{
    return {QUuid::createUuid().toString(QUuid::WithoutBraces)};
}

} // namespace ramplight
