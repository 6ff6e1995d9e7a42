// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Drawing

// The plan view of a car, front at the top.
//   shape: hatch | saloon | estate | suv | coupe | convertible | mpv | van | pickup
//   marks: place id -> CarOutline.Plain | Filled (outstanding) | Hollow (closed) | Stippled (not looked at)
//   interactive, signal placeTouched(string place): the region touched, or the nearest within 6 mm
//   extras: also what a plan cannot show, below the car (spare wheel, underside)
//   aspect (read only): width / height;  placeAt(x, y, reach), centreOf(place), places()
CarDrawing {
    id: root

    enum Mark {
        Plain,
        Filled,
        Hollow,
        Stippled
    }

    property bool interactive: false

    signal placeTouched(string place)

    // One line weight: finer on a card than on a full drawing, never a hair.
    lineWidth: Math.max(1.2, Math.min(Theme.mm(0.6), height / 300))
    line: Theme.ink
    seam: Theme.seam
    body: Theme.paper
    glass: Theme.rule
    filled: Theme.ink
    hollow: Theme.accent
    stipple: Theme.inkMuted
    implicitHeight: Theme.mm(55)
    implicitWidth: height * aspect

    MouseArea {
        anchors.fill: parent
        enabled: root.interactive
        onClicked: mouse => {
            const place = root.placeAt(mouse.x, mouse.y, Theme.mm(6))
            if (place.length > 0)
                root.placeTouched(place)
        }
    }
}
