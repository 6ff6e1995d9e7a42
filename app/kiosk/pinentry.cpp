// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/pinentry.h"

#include "access/pinpolicy.h"

namespace ramplight {

PinEntry::PinEntry(int digits, QObject* parent)
    : QObject(parent)
    , m_digits(digits)
{
}

void PinEntry::press(int digit)
{
    if (digit < 0 || digit > 9)
        return;
    m_pin.append(static_cast<char>('0' + digit));
    emit changed();
    if (length() == m_digits)
        emit filled();
}

void PinEntry::erase()
{
    m_pin.chop();
    emit changed();
}

void PinEntry::clear()
{
    m_pin.clear();
    emit changed();
}

void PinEntry::enter(const QString& digits)
{
    m_pin.clear();
    for (const QChar digit : digits)
        press(digit.digitValue());
}

Secret PinEntry::take()
{
    Secret pin = std::move(m_pin);
    m_pin.clear();
    emit changed();
    return pin;
}

NewPin::NewPin(QObject* parent)
    : QObject(parent)
    , m_pad(PinPolicy{}.digits)
    , m_words(ramplight::words(PinPolicy{}))
{
    connect(&m_pad, &PinEntry::filled, this, &NewPin::onFilled);
}

void NewPin::reset()
{
    m_pad.clear();
    m_first.clear();
    m_again = false;
    m_ready = false;
    m_words = ramplight::words(PinPolicy{});
    emit changed();
}

void NewPin::onFilled()
{
    const Secret typed = m_pad.take();
    if (m_ready)
        return;
    if (!m_again) {
        if (const auto good = checkNewPin(PinPolicy{}, typed); !good) {
            m_words = ramplight::words(good.error());
        } else {
            m_first = typed.clone();
            m_again = true;
            m_words = tr("The same PIN once more.");
        }
    } else if (typed == m_first) {
        m_ready = true;
        m_words = tr("The PIN is ready.");
    } else {
        m_first.clear();
        m_again = false;
        m_words = tr("The two were not the same. Choose a PIN again.");
    }
    emit changed();
}

} // namespace ramplight
