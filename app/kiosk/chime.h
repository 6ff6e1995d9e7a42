// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QObject>
#include <QtQmlIntegration>

#include <array>
#include <memory>

class QSoundEffect;

namespace ramplight {

/// What the kiosk says to the ear, for somebody who already looks at the car again: a signature
/// was taken, or something was refused. Silent unless it is on. GUI thread.
class Chime : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_SINGLETON
    Q_PROPERTY(bool on MEMBER m_on NOTIFY onChanged FINAL)

public:
    enum Sound { Signed, Refused };
    Q_ENUM(Sound)

    explicit Chime(QObject* parent = nullptr);
    ~Chime() override;

    Q_INVOKABLE void play(ramplight::Chime::Sound sound);

signals:
    void onChanged();
    /// Whether or not a loudspeaker is there.
    void played(ramplight::Chime::Sound sound);

private:
    bool m_on = false;
    /// Made when they are first heard: most starts of the program need none.
    std::array<std::unique_ptr<QSoundEffect>, 2> m_effects;
};

} // namespace ramplight
