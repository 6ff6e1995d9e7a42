// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme
import Ramplight.Controls

GalleryPage {
    id: root

    title: "What is marked where"

    property var marks: ({
        "front-bumper": CarOutline.Filled, "wing-left": CarOutline.Hollow, "bonnet": CarOutline.Stippled,
        "wheel-front-left": CarOutline.Filled, "tyre-front-right": CarOutline.Filled,
        "wheel-rear-right": CarOutline.Hollow, "tyre-rear-left": CarOutline.Stippled,
        "rear-door-right": CarOutline.Filled, "windscreen": CarOutline.Hollow,
        "sill-left": CarOutline.Filled, "mirror-left": CarOutline.Filled, "roof": CarOutline.Stippled,
        "quarter-left": CarOutline.Hollow, "headlamp-right": CarOutline.Filled,
        "fuel-flap": CarOutline.Filled, "rear-plate": CarOutline.Hollow, "arch-rear-right": CarOutline.Filled,
        "spare-tyre": CarOutline.Filled, "underside": CarOutline.Stippled,
        "front-glass-right": CarOutline.Filled, "rear-lamp-left": CarOutline.Hollow
    })

    Row {
        spacing: Theme.gap

        Sheet {
            width: root.innerWidth * (root.tall ? 0.62 : 0.4)
            height: root.innerHeight

            CarOutline {
                anchors.fill: parent
                shape: "estate"
                marks: root.marks
                extras: true
                interactive: true
                onPlaceTouched: place => touched.text = place
            }

            Label {
                id: touched
            }
        }

        Flow {
            width: root.innerWidth * (root.tall ? 0.38 : 0.6) - Theme.gap
            spacing: Theme.gap

            Repeater {
                model: ["hatch", "saloon", "suv", "coupe", "van", "pickup"]

                delegate: Sheet {
                    id: card

                    required property string modelData

                    width: Theme.mm(52)
                    height: Theme.mm(74)
                    padding: Theme.module

                    CarOutline {
                        anchors.horizontalCenter: parent.horizontalCenter
                        height: Theme.mm(60)
                        shape: card.modelData
                        marks: root.marks
                    }
                }
            }
        }
    }
}
