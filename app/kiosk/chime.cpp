// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/chime.h"

#include <QSoundEffect>
#include <QUrl>

namespace ramplight {

Chime::Chime(QObject* parent)
    : QObject(parent)
{
}

Chime::~Chime() = default;

void Chime::play(Sound sound)
{
    if (!m_on)
        return;
    auto& effect = m_effects.at(static_cast<std::size_t>(sound));
    if (!effect) {
        effect = std::make_unique<QSoundEffect>();
        effect->setSource(QUrl(sound == Signed
                                   ? QStringLiteral("qrc:/ramplight/sounds/signed.wav")
                                   : QStringLiteral("qrc:/ramplight/sounds/refused.wav")));
    }
    effect->play();
    emit played(sound);
}

} // namespace ramplight
