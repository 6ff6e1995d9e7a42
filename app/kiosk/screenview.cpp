// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/screenview.h"

#include "kiosk/siteasks.h"
#include "kiosk/typednumber.h"

#include <cmath>

namespace ramplight {

namespace {

constexpr int tenths = 10;
constexpr int leastTenths = 100;
constexpr int mostTenths = 1200;

} // namespace

ScreenView::ScreenView(Session& session, SiteBook& book, const ScreenSettings& now,
                       ScreenKeeper keeper, QObject* parent)
    : QObject(parent)
    , m_session(session)
    , m_book(book)
    , m_now(now)
    , m_keeper(std::move(keeper))
{
}

QString ScreenView::diagonalText() const
{
    return typedText(static_cast<int>(std::lround(m_now.diagonalInches * tenths)), 1);
}

void ScreenView::setDiagonal(const QString& inches)
{
    const auto typed = typedNumber(inches, 1);
    if (!typed || *typed < leastTenths || *typed > mostTenths) {
        m_ask.refuse(QStringLiteral("screen"), QStringLiteral("value-out-of-range"),
                     tr("A diagonal from 10 to 120 inches is needed."));
        return;
    }
    ScreenSettings wanted = m_now;
    wanted.diagonalInches = static_cast<double>(*typed) / tenths;
    set(wanted);
}

void ScreenView::setLight(bool light)
{
    ScreenSettings wanted = m_now;
    wanted.light = light;
    set(wanted);
}

void ScreenView::setLessMotion(bool less)
{
    ScreenSettings wanted = m_now;
    wanted.lessMotion = less;
    set(wanted);
}

void ScreenView::setSounds(bool on)
{
    ScreenSettings wanted = m_now;
    wanted.sounds = on;
    set(wanted);
}

void ScreenView::set(const ScreenSettings& wanted)
{
    if (wanted == m_now)
        return;
    const QString what = QStringLiteral("screen");
    whenManager(m_session, m_book, m_ask, what, tr("to change this screen"), [this, what, wanted] {
        const QString fault = m_keeper ? m_keeper(wanted) : QString();
        if (!fault.isEmpty()) {
            m_ask.refuse(what, QStringLiteral("store"), fault);
            return;
        }
        m_ask.dismiss();
        m_now = wanted;
        emit changed();
    });
}

} // namespace ramplight
