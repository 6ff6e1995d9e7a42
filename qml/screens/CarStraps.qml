// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk

// What is forbidden with a car now, a strap for each; no height where nothing is.
//   car
Column {
    id: root

    required property CarView car

    Repeater {
        model: root.car.restraintWords

        delegate: Strap {
            required property string modelData

            width: root.width
            text: modelData
        }
    }
}
