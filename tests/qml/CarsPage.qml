// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "Nine body shapes"

    component Shown: Sheet {
        id: shown

        required property string modelData

        padding: Theme.module
        title: modelData

        CarOutline {
            anchors.fill: parent
            shape: shown.modelData
        }
    }

    Grid {
        columns: root.tall ? 3 : 5
        spacing: Theme.gap

        Repeater {
            model: ["hatch", "saloon", "estate", "suv", "coupe", "convertible", "mpv", "van", "pickup"]

            delegate: Shown {
                width: (root.innerWidth - (root.tall ? 2 : 4) * Theme.gap) / (root.tall ? 3 : 5)
                height: root.tall ? (root.innerHeight - 2 * Theme.gap) / 3 : (root.innerHeight - Theme.gap) / 2
            }
        }
    }
}
