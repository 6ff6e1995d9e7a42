// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/scanrouter.h"

#include "kiosk/steadycount.h"

#include <QCoreApplication>
#include <QKeyEvent>
#include <QPointer>
#include <QWindow>

namespace ramplight {

/// A key that was kept back, and the window it was for.
struct ScanRouter::Held
{
    QPointer<QObject> window;
    std::unique_ptr<QEvent> event;
    bool press = false;
};

namespace {

bool isModifier(int key)
{
    switch (key) {
    case Qt::Key_Shift:
    case Qt::Key_Control:
    case Qt::Key_Alt:
    case Qt::Key_AltGr:
    case Qt::Key_Meta:
    case Qt::Key_CapsLock:
    case Qt::Key_NumLock:
        return true;
    default:
        return false;
    }
}

} // namespace

ScanRouter::ScanRouter(const ScanRules& rules, std::function<qint64()> steadyMs, QObject* parent)
    : QObject(parent)
    , m_reader(rules)
    , m_steadyMs(steadyMs ? std::move(steadyMs) : steadyCount())
    , m_gapMs(rules.gapMs)
{
    m_idle.setSingleShot(true);
    m_idle.setInterval(m_gapMs);
    connect(&m_idle, &QTimer::timeout, this, &ScanRouter::idle);
}

ScanRouter::~ScanRouter() = default;

bool ScanRouter::eventFilter(QObject* watched, QEvent* event)
{
    switch (event->type()) {
    case QEvent::MouseButtonPress:
    case QEvent::TouchBegin:
        emit touched();
        return false;
    case QEvent::KeyPress:
    case QEvent::KeyRelease:
        break;
    default:
        return false;
    }
    // The window hands the same event on to its items: only its own copy is looked at.
    if (m_handingOn || qobject_cast<QWindow*>(watched) == nullptr)
        return false;
    auto* key = static_cast<QKeyEvent*>(event);
    if (isModifier(key->key()))
        return false;
    const bool press = event->type() == QEvent::KeyPress;
    if (!press && m_held.empty())
        return false;
    if (press && key->isAutoRepeat()) {
        idle();
        return false;
    }
    auto held = std::make_unique<Held>();
    held->window = watched;
    held->event.reset(key->clone());
    held->press = press;
    m_held.push_back(std::move(held));
    if (press) {
        emit touched();
        m_idle.start();
        answer(m_reader.feed(key->text(), m_steadyMs()));
    }
    return true;
}

void ScanRouter::idle()
{
    m_idle.stop();
    // A held key counts as typing as soon as it has waited too long for another one.
    answer(m_reader.idle(m_steadyMs() + m_gapMs));
}

void ScanRouter::answer(const ScanAnswer& answer)
{
    switch (answer.kind) {
    case ScanAnswer::Kind::Held:
        return;
    case ScanAnswer::Kind::Typing:
        handOn(answer.release);
        return;
    case ScanAnswer::Kind::Scan:
        break;
    }
    m_idle.stop();
    m_held.clear();
    switch (answer.scan) {
    case ScanKind::Badge:
        emit badgeScanned(answer.payload);
        break;
    case ScanKind::CarLabel:
        emit carScanned(answer.payload);
        break;
    case ScanKind::WheelTag:
        emit wheelScanned(answer.payload);
        break;
    case ScanKind::Vin:
        emit vinScanned(answer.payload);
        break;
    case ScanKind::Unknown:
        emit unknownScanned(answer.payload);
        break;
    }
}

void ScanRouter::handOn(int keys)
{
    // So many presses, with the releases that came among and after them.
    std::vector<std::unique_ptr<Held>> out;
    std::size_t taken = 0;
    while (taken < m_held.size()) {
        if (m_held[taken]->press && keys-- == 0)
            break;
        out.push_back(std::move(m_held[taken++]));
    }
    m_held.erase(m_held.begin(), m_held.begin() + static_cast<std::ptrdiff_t>(taken));
    m_handingOn = true;
    for (const std::unique_ptr<Held>& held : out)
        if (held->window)
            QCoreApplication::sendEvent(held->window, held->event.get());
    m_handingOn = false;
}

} // namespace ramplight
